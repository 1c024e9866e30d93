import { describe, expect, test } from "vitest";
import { array, areaOf, calculated, plain, spill, text, workbook } from "../workbooks.js";

/** The change of a cell, as the writer gets it. */
function changeOf(after: ReturnType<typeof calculated>, row: number, column: number) {
  return after.changes.find((change) => change.row === row && change.column === column);
}

describe("a plain formula", () => {
  test("takes the top left element of an array, and its neighbours see no more", () => {
    const after = calculated(
      workbook({ S: { A1: "=GYLE.GROW(3,2)", A3: "=SUM(A1:B2)", D1: "=COUNT(A1:B2)" } }),
    );
    expect([after.at("A1"), after.at("A2"), after.at("B1"), after.at("A3"), after.at("D1")]).toEqual([
      1,
      undefined,
      undefined,
      1,
      1,
    ]);
  });

  test("gives the whole array to a function around ours", () => {
    const after = calculated(
      workbook({
        S: {
          A1: 1,
          A2: 2,
          B1: 10,
          B2: 20,
          C1: "=SUM(GYLE.ADD(A1:A2,B1:B2))",
          C2: "=ROWS(GYLE.GROW(7))",
          C3: "=SUM(ROUND(GYLE.ADD(A1:A2,B1:B2)/3,0))",
        },
      }),
    );
    expect([after.at("C1"), after.at("C2"), after.at("C3")]).toEqual([33, 7, 4 + 7]);
  });

  test("that takes one value out of a range by where it stands is left alone, and that is told", () => {
    const after = calculated(
      workbook({
        S: { A1: "=GYLE.DOUBLE(1)", A2: "=GYLE.DOUBLE(2)", B2: plain("A1:A2*10", 40), E2: "=SUM(A1:A2*1)" },
      }),
    );
    expect([after.at("B2"), after.at("E2")]).toEqual([40, 6]);
    expect(after.notes.map(({ column, kind }) => [column, kind])).toEqual([[1, "left-as-it-was"]]);
  });
});

describe("an array formula over a fixed area", () => {
  test("fills it, with #N/A where the result does not reach", () => {
    const after = calculated(workbook({ S: { A1: array("GYLE.GROW(2,2)", "A1:C3") } }));
    expect(after.at("B2")).toBe(12);
    expect([after.at("C1"), after.at("A3")]).toEqual([{ error: "#N/A" }, { error: "#N/A" }]);
  });

  test("cuts off what does not fit", () => {
    const after = calculated(workbook({ S: { A1: array("GYLE.GROW(5)", "A1:A2") } }));
    expect(after.changed).toEqual(["A1", "A2"]);
  });

  test("repeats a single value, row or column", () => {
    const after = calculated(
      workbook({
        S: {
          A1: array("GYLE.IDENTITY(7)", "A1:B2"),
          D1: array("GYLE.IDENTITY({1,2})", "D1:E3"),
          G1: array("GYLE.GROW(2)", "G1:H2"),
        },
      }),
    );
    expect(["A1", "B2", "D3", "E3", "H1", "H2"].map((cell) => after.at(cell))).toEqual([7, 7, 1, 2, 1, 2]);
  });

  test("keeps its area and its formula in the file", () => {
    const after = calculated(workbook({ S: { A1: array("GYLE.GROW(5)", "A1:A2") } }));
    expect(after.changes.some((change) => "formula" in change)).toBe(false);
  });

  test("evaluates operators over whole ranges", () => {
    const after = calculated(
      workbook({ S: { A1: 1, A2: 2, B1: array("SUM(A1:A2*GYLE.IDENTITY(A1:A2))", "B1") } }),
    );
    expect(after.at("B1")).toBe(5);
  });
});

describe("a dynamic array", () => {
  test("that grows fills new cells and has a new area", () => {
    const after = calculated(workbook({ S: { A1: spill("GYLE.GROW(3)", "A1", 1), C1: 9 } }));
    expect(after.changed).toEqual(["A1", "A2", "A3"]);
    expect(changeOf(after, 0, 0)).toEqual({
      sheet: "S",
      row: 0,
      column: 0,
      value: 1,
      formula: { text: "GYLE.GROW(3)", kind: "spill", area: areaOf("A1:A3") },
    });
  });

  test("that shrinks clears the cells it leaves", () => {
    const after = calculated(
      workbook({ S: { A1: spill("GYLE.GROW(1)", "A1:B2", 1), A2: 2, B1: 11, B2: 12 } }),
    );
    expect(["A2", "B1", "B2"].map((cell) => after.at(cell))).toEqual([null, null, null]);
    expect(changeOf(after, 0, 0)?.formula?.area).toEqual(areaOf("A1"));
  });

  test("that keeps its size and values changes nothing", () => {
    const after = calculated(workbook({ S: { A1: spill("GYLE.GROW(2)", "A1:A2", 1), A2: 2 } }));
    expect(after.changes).toEqual([]);
  });

  test.each([
    ["a value", { A3: 5 }],
    ["empty text that a formula gives", { A3: plain('""', "") }],
    ["text that looks like a formula", { A3: text("=x") }],
  ])("stopped by %s shows #SPILL! and says by which cell", (_, blocker) => {
    const after = calculated(workbook({ S: { A1: spill("GYLE.GROW(3)", "A1:A2", 1), A2: 2, ...blocker } }));
    expect(after.at("A1")).toEqual({ error: "#SPILL!" });
    expect(after.at("A2")).toBeNull();
    expect(after.errors).toEqual([
      {
        sheet: "S",
        row: 0,
        column: 0,
        code: "#SPILL!",
        message: "The result has no room: S!A3 is in the way.",
      },
    ]);
    expect(changeOf(after, 0, 0)?.formula?.area).toEqual(areaOf("A1"));
  });

  test("is not stopped by its own old cells, nor by those that another one gives up", () => {
    const after = calculated(
      workbook({
        S: {
          A1: spill("GYLE.GROW(2)", "A1:A4", 1),
          A2: 2,
          A3: 3,
          A4: 4,
          C1: spill("GYLE.GROW(1,A1)", "C1", 1),
        },
      }),
    );
    expect([after.at("A3"), after.at("A4"), after.at("C1")]).toEqual([null, null, 1]);
  });

  test("is stopped by another one's new cells", () => {
    const after = calculated(
      workbook({
        S: { A1: spill("GYLE.GROW(1,3)", "A1", 1), B1: 1, C2: spill("GYLE.GROW(2,2)", "C2", 1), D4: 1 },
      }),
    );
    expect(after.at("A1")).toEqual({ error: "#SPILL!" });
    expect(after.at("D3")).toBe(12);
  });

  test("does not run into a table, nor past the edge of the sheet", () => {
    const table = {
      name: "T",
      sheet: "S",
      area: areaOf("B2:B5"),
      headerRows: 0,
      totalsRows: 0,
      columns: ["x"],
    };
    const after = calculated(
      workbook(
        { S: { A2: spill("GYLE.GROW(1,2)", "A2", 1), A1048576: spill("GYLE.GROW(2)", "A1048576", 1) } },
        { tables: [table] },
      ),
    );
    expect(after.errors.map(({ message }) => message)).toEqual([
      "The result has no room: T is in the way.",
      "The result has no room: it would reach past the end of the sheet.",
    ]);
  });

  test("keeps blanks in its middle as 0 and errors in their place, each with its message", () => {
    const after = calculated(
      workbook({ S: { A1: 1, A2: "x", A4: 4, C1: spill("GYLE.ADD(A1:A4,A1)", "C1", 1) } }),
    );
    expect([after.at("C1"), after.at("C4")]).toEqual([2, 5]);
    expect(after.errors).toEqual([
      { sheet: "S", row: 1, column: 2, code: "#VALUE!", message: "not a number: x" },
      { sheet: "S", row: 2, column: 2, code: "#VALUE!", message: "not a number: null" },
    ]);
  });

  test("of Excel's own functions is written when it depends on ours", () => {
    const after = calculated(
      workbook({
        S: {
          A1: spill("GYLE.GROW(3)", "A1:A3", 0),
          A2: 0,
          A3: 0,
          C1: spill("_xlfn._xlws.SORT(_xlfn.ANCHORARRAY(A1),1,-1)", "C1:C3", 0),
          C2: 0,
          C3: 0,
        },
      }),
    );
    expect(["C1", "C2", "C3"].map((cell) => after.at(cell))).toEqual([3, 2, 1]);
  });
});

describe("sizes that change on the way", () => {
  test("reach a chain of dynamic arrays that refer to each other by their first cell", () => {
    const after = calculated(
      workbook({
        S: {
          A1: spill("GYLE.GROW(4)", "A1", 0),
          C1: spill("GYLE.DOUBLE(_xlfn.ANCHORARRAY(A1))", "C1", 0),
          E1: spill("GYLE.DOUBLE(C1#)", "E1", 0),
          G1: "=SUM(E1#)",
        },
      }),
    );
    expect([after.at("E4"), after.at("G1")]).toEqual([16, 40]);
  });

  test("reach formulas that read cells which were empty before", () => {
    const after = calculated(
      workbook({
        S: {
          C1: plain("SUM(A2:A9)", 0),
          C2: plain("C1*2", 0),
          A1: spill("GYLE.GROW(4)", "A1", 0),
          E1: spill("GYLE.GROW(A3)", "E1", 0),
          G1: plain("COUNT(E1:E9)", 1),
        },
      }),
    );
    expect(["C1", "C2", "E3", "G1"].map((cell) => after.at(cell))).toEqual([9, 18, 3, 3]);
  });

  test("that make a formula need itself are a circular reference", () => {
    const after = calculated(
      workbook({
        S: {
          A1: spill("GYLE.GROW(2+0*COUNT(C2:C9))", "A1", 7),
          C1: spill("GYLE.GROW(2+0*COUNT(A2:A9))", "C1", 7),
        },
      }),
    );
    expect(after.cycles.map((cycle) => cycle.map(({ column }) => column))).toEqual([[0, 2]]);
    expect(after.changes).toEqual([]);
  });

  test("that never settle are given up with a note, and the stored values stay", () => {
    const after = calculated(
      workbook({
        S: {
          A1: spill("GYLE.CREEP()", "A1:A2", 7),
          A2: 7,
          C1: "=GYLE.DOUBLE(2)",
          D1: plain("SUM(A1:A99)", 0),
        },
      }),
    );
    expect(after.at("C1")).toBe(4);
    expect([after.at("A1"), after.at("A2"), after.at("A3")]).toEqual([7, 7, undefined]);
    expect(after.notes).toMatchObject([
      { row: 0, column: 0, kind: "left-as-it-was" },
      { row: 0, column: 3, kind: "left-as-it-was" },
    ]);
  });

  test("A1# of a cell that fills nothing is #REF!", () => {
    const after = calculated(workbook({ S: { A1: 5, B1: "=GYLE.DOUBLE(1)+SUM(A1#)" } }));
    expect(after.at("B1")).toEqual({ error: "#REF!" });
  });
});
