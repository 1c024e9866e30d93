import { describe, expect, test } from "vitest";
import { calculated, plain, workbook } from "../workbooks.js";

const brief = (after: ReturnType<typeof calculated>): string[] =>
  after.notes.map(
    ({ sheet, row, column, kind }) => `${sheet}!${"ABCDEFGH".charAt(column)}${row + 1} ${kind}`,
  );

describe("a formula that cannot be calculated here", () => {
  test.each([
    ["an unknown function", "NO.SUCH.FUNCTION(A1)"],
    ["a function that asks for more than values", 'CELL("contents",A1)'],
    ["another workbook", "[1]Sheet1!A1+A1"],
    ["several sheets at once", "SUM(S:Other!A1)+A1"],
    ["a name that is not defined", "Unheard_of+A1"],
    ["one of our functions that there is not", "GYLE.NO.SUCH(A1)"],
    ["a range over a whole sheet, put together in it", "SUM((XFD1048576:Other!A1))+A1"],
  ])("because of %s keeps its stored value and is told", (_, formula) => {
    const after = calculated(
      workbook({ S: { A1: "=GYLE.DOUBLE(2)", B1: plain(formula, 77), C1: plain("B1+1", 0) }, Other: {} }),
    );
    expect(brief(after)).toEqual(["S!B1 left-as-it-was", "S!C1 left-as-it-was"]);
    expect(after.notes[0]?.message).toMatch(/\. The stored value was left as it was\.$/);
    expect(after.notes[1]?.message).toContain("depends on S!B1");
    expect(after.changed).toEqual(["A1"]);
  });

  test("is used with its stored value when ours need it", () => {
    const after = calculated(workbook({ S: { A1: plain("NO.SUCH()", 21), B1: "=GYLE.DOUBLE(A1)" } }));
    expect(after.at("B1")).toBe(42);
    expect(brief(after)).toEqual(["S!A1 stored-value-used"]);
  });

  test("is not mentioned when it has nothing to do with ours", () => {
    const after = calculated(workbook({ S: { A1: plain("NO.SUCH()", 21), B1: "=GYLE.DOUBLE(1)" } }));
    expect(after.notes).toEqual([]);
  });

  test("keeps what depends on it, be it ours, from mixing its old value with new ones", () => {
    const after = calculated(
      workbook({
        S: {
          A1: plain("GYLE.DOUBLE(2)", 3),
          B1: plain("NO.SUCH(A1)", 7),
          C1: plain("A1+B1", 10),
          D1: plain("GYLE.DOUBLE(C1)", 20),
        },
      }),
    );
    expect(after.changed).toEqual(["A1"]);
    expect(brief(after)).toEqual(["S!B1 left-as-it-was", "S!C1 left-as-it-was", "S!D1 left-as-it-was"]);
  });

  test("keeps nothing else as long as ours come out as they were", () => {
    const after = calculated(
      workbook({
        S: {
          A1: plain("GYLE.DOUBLE(2)", 4),
          B1: plain("NO.SUCH(A1)", 7),
          C1: plain("B1+E1", 10),
          E1: plain("GYLE.DOUBLE(2)", 3),
        },
      }),
    );
    expect(after.at("C1")).toBe(11);
    expect(brief(after)).toEqual(["S!B1 left-as-it-was"]);
  });
});

test("whole columns are read, also where the formula puts them together", () => {
  const after = calculated(
    workbook({ S: { A1: "=GYLE.DOUBLE(2)", A2: 5, D1: "=SUM(A:C,A1:INDEX(A:A,2))" } }),
  );
  expect([after.at("D1"), after.notes]).toEqual([18, []]);
});

describe("a formula that ours need and that comes out otherwise than stored", () => {
  test("is told, and its fresh value is used but not written", () => {
    const after = calculated(workbook({ S: { A1: 3, B1: plain("A1*10", 31), C1: "=GYLE.DOUBLE(B1)" } }));
    expect(after.at("C1")).toBe(60);
    expect(after.changed).toEqual(["C1"]);
    expect(brief(after)).toEqual(["S!B1 differs-from-stored"]);
    expect(after.notes[0]?.message).toContain("30");
  });

  test("is not told for what only the last digits make different", () => {
    const after = calculated(
      workbook({ S: { A1: 3, B1: plain("A1/7", 0.428571428571429), C1: "=GYLE.DOUBLE(B1)" } }),
    );
    expect(after.notes).toEqual([]);
  });

  test("is not told where a file has no stored values, nor for TODAY", () => {
    const after = calculated(
      workbook({ S: { B1: "=1+1", B2: plain("TODAY()", 1), C1: "=GYLE.DOUBLE(B1+B2*0)" } }),
    );
    expect(after.notes).toEqual([]);
    expect(after.at("C1")).toBe(4);
  });
});

describe("errors", () => {
  test("of our functions are reported with code and message, also from inside a formula", () => {
    const after = calculated(
      workbook({
        S: {
          A1: '=GYLE.FAIL("no such instrument")',
          B1: '=1+GYLE.DOUBLE("x")',
          C1: "=A1+1",
          D1: '=IFERROR(A1,"-")',
        },
      }),
    );
    expect(after.errors).toEqual([
      { sheet: "S", row: 0, column: 0, code: "#N/A", message: "no such instrument" },
      { sheet: "S", row: 0, column: 1, code: "#VALUE!", message: "not a number: x" },
    ]);
    expect([after.at("C1"), after.at("D1")]).toEqual([{ error: "#N/A" }, "-"]);
  });

  test("caught inside our formula are none, and a branch not taken is not called", () => {
    const after = calculated(
      workbook({
        S: {
          A1: '=IFERROR(GYLE.FAIL("x"),5)',
          B1: '=IF(TRUE,6,GYLE.FAIL("y"))',
          C1: '=IF(Z1="","",GYLE.FAIL())',
        },
      }),
    );
    expect(after.errors).toEqual([]);
    expect([after.at("A1"), after.at("B1"), after.at("C1")]).toEqual([5, 6, ""]);
  });

  test("that come from a cell before ours have no message of ours", () => {
    const after = calculated(workbook({ S: { A1: "=1/0", B1: "=GYLE.IDENTITY(A1)" } }));
    expect(after.errors).toEqual([{ sheet: "S", row: 0, column: 1, code: "#DIV/0!", message: "" }]);
  });
});

describe("SUBTOTAL", () => {
  const sheet = {
    A1: 1,
    A2: 2,
    A3: 3,
    B1: "=GYLE.DOUBLE(A1)",
    B2: "=GYLE.DOUBLE(A2)",
    B3: "=GYLE.DOUBLE(A3)",
  };
  const stored = {
    B1: plain("GYLE.DOUBLE(A1)", 20),
    B2: plain("GYLE.DOUBLE(A2)", 30),
    B3: plain("GYLE.DOUBLE(A3)", 40),
  };

  test("is calculated where it comes to its stored value from the stored cells", () => {
    const after = calculated(workbook({ S: { ...sheet, ...stored, B5: plain("SUBTOTAL(109,B1:B3)", 90) } }));
    expect(after.at("B5")).toBe(12);
    expect(after.notes).toEqual([]);
  });

  test("is left alone where it does not", () => {
    const after = calculated(workbook({ S: { ...sheet, ...stored, B5: plain("SUBTOTAL(109,B1:B3)", 50) } }));
    expect(after.at("B5")).toBe(50);
    expect(brief(after)).toEqual(["S!B5 left-as-it-was"]);
    expect(after.notes[0]?.message).toContain("come to 90 here, but 50 is stored");
  });

  test("leaves out other subtotals in its range", () => {
    const after = calculated(
      workbook({
        S: { ...sheet, B4: "=SUBTOTAL(9,B1:B3)", B5: "=SUBTOTAL(9,B1:B4)", B6: "=AGGREGATE(9,4,B1:B4)" },
      }),
    );
    expect([after.at("B4"), after.at("B5"), after.at("B6")]).toEqual([12, 12, 24]);
  });
});

test("dates of a workbook that counts from 1904 are not calculated with", () => {
  const after = calculated(
    workbook({ S: { A1: plain("YEAR(40000)", 2013), B1: "=GYLE.DOUBLE(A1)" } }, { since1904: true }),
  );
  expect(after.at("B1")).toBe(4026);
  expect(brief(after)).toEqual(["S!A1 stored-value-used"]);
});
