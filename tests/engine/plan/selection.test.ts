import { recalculate } from "../../../src/engine/recalculate.js";
import { fakeFunctions } from "../fixture.js";
import { describe, expect, test } from "vitest";
import { calculated, plain, type Sketch, spill, text, workbook } from "../workbooks.js";

describe("what is written", () => {
  test("are our formulas and what depends on them, near or far", () => {
    const after = calculated(
      workbook({
        Log: {
          A1: 3,
          B1: plain("GYLE.DOUBLE(A1)", 0),
          C1: plain("B1+1", 1),
          D1: plain("SUM(Totals!A:A)", 15),
        },
        Totals: { A1: plain("Log!C1*10", 10), A2: 5 },
      }),
    );
    expect([...after.changed].sort()).toEqual(["B1", "C1", "D1", "Totals!A1"]);
    expect(["B1", "C1", "D1", "Totals!A1"].map((cell) => after.at(cell))).toEqual([6, 7, 75, 70]);
    expect(after.counts).toEqual({ recalculated: 4, changed: 4 });
  });

  test("are not formulas that ours need, though these are calculated afresh", () => {
    const after = calculated(
      workbook({ Log: { A1: 3, B1: plain("A1+1", null), C1: plain("GYLE.DOUBLE(B1)", 0) } }),
    );
    expect(after.changed).toEqual(["C1"]);
    expect(after.at("C1")).toBe(8);
  });

  test("are not formulas that have nothing to do with ours, even where their stored values are wrong", () => {
    const after = calculated(
      workbook({ Log: { A1: 3, B1: plain("A1*100", 1), C1: plain("GYLE.DOUBLE(A1)", 0) } }),
    );
    expect(after.changed).toEqual(["C1"]);
    expect(after.notes).toEqual([]);
  });

  test("are not cells that come out as they were", () => {
    const after = calculated(
      workbook({ Log: { A1: 3, B1: plain("GYLE.DOUBLE(A1)", 6), C1: plain("B1&A1", "63") } }),
    );
    expect(after.changed).toEqual([]);
    expect(after.counts).toEqual({ recalculated: 2, changed: 0 });
  });

  test("is nothing in a workbook without our functions", () => {
    const after = calculated(workbook({ Log: { A1: 3, B1: plain("A1*2", 1) } }));
    expect(after).toMatchObject({
      changes: [],
      counts: { recalculated: 0, changed: 0 },
      notes: [],
      cutOff: [],
      cycles: [],
    });
  });
});

describe("dependence is found", () => {
  test.each([
    ["through a whole column", "SUM(B:B)", 18],
    ["through whole rows", "SUM(1:2)", 27],
    ["through a range", "SUM(B1:B2)", 18],
    ["through a range written backwards", "SUM(B2:B1)", 18],
    ["through a range that a function ends", "SUM(B1:INDEX(B:B,2))", 18],
    ["through a defined name", "Doubled", 6],
    ["through a table", "SUM(Readings[twice])", 18],
    ["through a name of a name", "Again", 12],
    ["through LET", "_xlfn.LET(_xlpm.x,B1,_xlpm.x+1)", 7],
    ["inside an untaken branch", "IF(A1=0,B1,5)", 5],
  ])("%s", (_, formula, expected) => {
    const after = calculated(
      workbook(
        {
          Log: {
            A1: 3,
            B1: plain("GYLE.DOUBLE(A1)", -1),
            A2: 6,
            B2: plain("GYLE.DOUBLE(A2)", -1),
            E5: plain(formula),
          },
        },
        {
          names: [
            { name: "Doubled", refersTo: "Log!$B$1" },
            { name: "Again", refersTo: "Doubled*2" },
          ],
          tables: [
            {
              name: "Readings",
              sheet: "Log",
              area: { top: 0, left: 0, bottom: 1, right: 1 },
              headerRows: 0,
              totalsRows: 0,
              columns: ["once", "twice"],
            },
          ],
        },
      ),
    );
    expect(after.changed).toContain("E5");
    expect(after.at("E5")).toBe(expected);
  });

  test("through the cells that a dynamic array fills", () => {
    const after = calculated(
      workbook({ Log: { A1: spill("GYLE.GROW(3)", "A1:A3", 0), A2: 0, A3: 0, C1: plain("A3*10", 0) } }),
    );
    expect(after.at("C1")).toBe(30);
  });

  test("for what INDIRECT and OFFSET find", () => {
    const after = calculated(
      workbook({
        Log: {
          A1: 3,
          B1: plain("GYLE.DOUBLE(A1)", 0),
          C1: plain('INDIRECT("B"&1)+1', 1),
          D1: plain("OFFSET(A1,0,1)+2", 2),
          E1: plain("D1*10", 20),
        },
      }),
    );
    expect(["C1", "D1", "E1"].map((cell) => after.at(cell))).toEqual([7, 8, 80]);
  });

  test("for what INDIRECT and OFFSET read, in whichever order it stands", () => {
    const sheet = Object.fromEntries(
      Array.from({ length: 6 }, (_, i) => [
        `A${i + 1}`,
        plain(i === 5 ? "GYLE.DOUBLE(1)" : `OFFSET(A${i + 1},1,0)+1`, 5 - i),
      ]),
    );
    const after = calculated(workbook({ Log: sheet }));
    expect(after.at("A1")).toBe(2 + 5);
  });

  test("not where a cell is only named: ROW and COLUMNS of a cell of ours read nothing", () => {
    const after = calculated(
      workbook({ Log: { B1: plain("GYLE.DOUBLE(2)", 0), C1: plain("ROW(B1)+COLUMNS(B1)", 99) } }),
    );
    expect(after.changed).toEqual(["B1"]);
  });
});

describe("values pass unchanged", () => {
  const kept = ["1,052", "007", "1e3", "TRUE", "=A1", " 5 ", "'x", "{1,2}", "", "2024-01-01", "50%"];

  test.each(kept.map((value) => [value]))("the text %j stays this text on its way in and out", (value) => {
    const after = calculated(
      workbook({ Log: { A1: text(value), B1: "=GYLE.IDENTITY(A1)", C1: "=GYLE.KIND.OF(A1)", D1: "=B1" } }),
    );
    expect(after.at("B1")).toBe(value);
    expect(after.at("C1")).toBe("string");
    expect(after.at("D1")).toBe(value);
    expect(after.errors).toEqual([]);
  });

  test.each([[0.1 + 0.2], [1 / 3], [5e-324], [1.7976931348623157e308], [-123456789.12345679], [45000.75]])(
    "the number %d stays this number to the last bit",
    (value: number) => {
      const after = calculated(workbook({ Log: { A1: value, B1: "=GYLE.IDENTITY(A1)", C1: "=B1" } }));
      expect([after.at("B1"), after.at("C1")]).toEqual([value, value]);
    },
  );

  test("logical values and every error code", () => {
    const codes = ["#N/A", "#VALUE!", "#DIV/0!", "#NUM!", "#NULL!"];
    const sheet = Object.fromEntries(
      codes.flatMap((error, i): [string, Sketch][] => [
        [`A${i + 1}`, { error }],
        [`B${i + 1}`, `=GYLE.IDENTITY(A${i + 1})`],
      ]),
    );
    const after = calculated(workbook({ Log: { ...sheet, A9: true, B9: "=GYLE.IDENTITY(A9)" } }));
    expect(codes.map((_, i) => after.at(`B${i + 1}`))).toEqual(codes.map((error) => ({ error })));
    expect(after.at("B9")).toBe(true);
  });

  test("a blank reaches a function as a blank, an argument left out as one left out", () => {
    const after = calculated(workbook({ Log: { A1: "=GYLE.KIND.OF(Z9)", A2: "=GYLE.KIND.OF()" } }));
    expect([after.at("A1"), after.at("A2")]).toEqual(["blank", "omitted"]);
  });

  test("a blank as the result of a formula shows as 0, empty text as empty text", () => {
    const after = calculated(
      workbook({
        Log: { A1: "=GYLE.IDENTITY(Z9)", A2: "=GYLE.DOUBLE(Z9)", A3: '=A2=""', A4: '=Z9&GYLE.IDENTITY("x")' },
      }),
    );
    expect([after.at("A1"), after.at("A2"), after.at("A3"), after.at("A4")]).toEqual([0, "", true, "x"]);
  });

  test("functions that take single values get them one by one in an array formula", () => {
    const after = calculated(
      workbook({ Log: { A1: 4, A2: 6, B1: spill("GYLE.HALF(A1:A2)", "B1"), D1: '=GYLE.JOIN(1,"b",TRUE)' } }),
    );
    expect([after.at("B1"), after.at("B2"), after.at("D1")]).toEqual([2, 3, "1+b+TRUE"]);
  });
});

test("two runs in one process give the same and leave no timers behind", () => {
  const model = workbook({
    Log: { A1: 3, B1: "=GYLE.DOUBLE(A1)", C1: '=TEXT(B1,"0.0")' },
  });
  const waiting = (): string[] =>
    process.getActiveResourcesInfo().filter((kind) => /Timeout|Immediate|Worker/.test(kind));
  const before = waiting().length;
  const first = calculated(model);
  const second = calculated(model);
  expect(second.changes).toEqual(first.changes);
  expect(first.at("C1")).toBe("6.0");
  expect(waiting().length).toBeLessThanOrEqual(before);
});

test("progress counts up to the number of formulas", () => {
  const seen: [number, number][] = [];
  const sheet = Object.fromEntries(
    Array.from({ length: 1200 }, (_, i) => [`A${i + 1}`, `=GYLE.DOUBLE(${i})`]),
  );
  recalculate(workbook({ Log: sheet }), fakeFunctions(), {
    onProgress: (done, total) => seen.push([done, total]),
  });
  expect(seen[0]).toEqual([0, 1200]);
  expect(seen.at(-1)).toEqual([1200, 1200]);
  expect(seen.length).toBeGreaterThan(2);
});
