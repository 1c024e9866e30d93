import { describe, expect, test } from "vitest";
import { recalculate } from "../../../src/engine/recalculate.js";
import type { CellValue } from "../../../src/workbook/model.js";
import { fakeFunctions } from "../fixture.js";
import { array, calculated, plain, type SheetSketch, spill, workbook } from "../workbooks.js";

const brief = (after: ReturnType<typeof calculated>): string[] =>
  after.notes.map(({ row, column, kind }) => `${"ABCDEFGH".charAt(column)}${row + 1} ${kind}`);

/** A1 is ours and was 3 when the workbook was stored; now it is 4. */
const beside = (cells: SheetSketch) =>
  calculated(workbook({ S: { A1: plain("GYLE.DOUBLE(B1)", 3), B1: 2, B2: 5, ...cells } }));

describe("a native formula that ours reach", () => {
  test.each([
    ["comes to its stored value from the stored cells", "A1*10", 30, 40],
    ["comes to it but for the last digits", "A1/7", 0.428571428571429, 4 / 7],
    ["has nothing stored beside it", "A1*10", null, 40],
    ["has inherited an error that ours had", "A1*10", { error: "#NAME?" }, 40],
    ["shows 0 for a blank", "IF(A1>0,Z9,1)", 0, 0],
  ] as [string, string, CellValue, CellValue][])("is written where it %s", (_, formula, stored, expected) => {
    const first =
      typeof stored === "object" && stored !== null ? { A1: plain("GYLE.DOUBLE(B1)", stored) } : {};
    const after = beside({ C1: plain(formula, stored), ...first });
    expect(after.at("C1")).toBe(expected);
    expect(after.notes).toEqual([]);
  });

  test.each([
    ["a number", "A1*10", 31],
    ["an error here, a number there", "A1/0", 5],
    ["a text", 'IF(A1>0,"yes","no")', "no"],
    ["a format from another language", 'TEXT(A1,"0,0")', "3,0"],
    ["rows that are hidden", "SUBTOTAL(109,A1:B2)", 3],
    ["the time", "A1+NOW()", 46000],
    ["chance", "A1*RAND()", 1],
    ["one cell out of a range", "A1:A9*Z1:Z9+A1", 77],
  ])("is kept and told where it does not: %s", (_, formula, stored) => {
    const after = beside({
      C1: plain(formula, stored),
      D1: plain("GYLE.DOUBLE(C1)", 1),
      E1: plain("D1&C1", "x"),
    });
    expect(after.changed).toEqual(["A1"]);
    expect(brief(after)).toEqual(["C1 left-as-it-was", "D1 left-as-it-was", "E1 left-as-it-was"]);
    expect(after.notes[0]?.message).toMatch(/^\S.*\. The stored value was left as it was\.$/);
    expect(after.notes[1]?.message).toContain("depends on S!C1");
  });

  test("is compared over its whole area", () => {
    const after = beside({
      D1: array("A1:A2*1", "D1:D2", 3),
      D2: 9,
      E1: spill("A1:B2*1", "E1:F2", 3),
      F1: 2,
      E2: 0,
      F2: 5,
      G1: spill("A1:A2*1", "G1", 3),
    });
    expect(brief(after)).toEqual(["D1 left-as-it-was", "G1 left-as-it-was"]);
    expect(after.at("E1")).toBe(4);
  });

  test("is not touched, not even in its last digit, where nothing that it comes to has changed", () => {
    const after = beside({
      C1: plain("B2/7+0*A1", 0.714285714285714),
      C2: plain("INDEX(A1:B2,2,2)/7", 0.714285714285714),
    });
    expect(after.changed).toEqual(["A1"]);
  });

  test("is written without a proof where the workbook was saved uncalculated, unless it cannot be calculated", () => {
    const model = workbook({
      S: {
        A1: plain("GYLE.DOUBLE(2)", 0),
        B1: plain("A1*10", 0),
        C1: plain("NO.SUCH(A1)", 0),
        D1: plain("E1+1", 0),
        E1: 1,
      },
    });
    const { changes, notes } = recalculate(model, fakeFunctions(), { uncalculated: true });
    expect(changes.map(({ column, value }) => [column, value])).toEqual([
      [0, 4],
      [1, 40],
    ]);
    expect(notes.map(({ column }) => column)).toEqual([2]);
  });

  test("that ours need counts as it is stored where the engine is not sure", () => {
    const after = calculated(
      workbook({
        S: { A1: 5, B1: plain('TEXT(A1,"0,0")', "5,0"), C1: "=GYLE.IDENTITY(B1)", D1: plain("LEN(C1)") },
      }),
    );
    expect([after.at("C1"), after.at("D1")]).toEqual(["5,0", 3]);
    expect(brief(after)).toEqual(["B1 differs-from-stored"]);
    expect(after.notes[0]?.message).toMatch(/"5,0" is stored\. The stored value was used\.$/);
  });
});

describe("a formula that does more than call ours", () => {
  test.each([
    ['IF(GYLE.DOUBLE(B1)>3.5,"strong","weak")', "weak", "strong"],
    ["ROUND(GYLE.DOUBLE(B1),1)+SUM(B1:B2)", 1, 11],
    ["GYLE.DOUBLE(VLOOKUP(2,B1:B2,1,FALSE))", 1, 4],
    ['IFERROR(GYLE.DOUBLE(B1),"")', "", 4],
    ['ROUND(GYLE.DOUBLE(B1)/3,1)&" %"', "4.2 %", "1.3 %"],
    ['GYLE.DOUBLE(B1)&" %"', "5 %", "4 %"],
    ['TEXT(GYLE.DOUBLE(B1),"00")', "05", "04"],
    ['LEFT("abcd",GYLE.DOUBLE(B1)-1)', "abc", "abc"],
    ["_xlfn.XLOOKUP(GYLE.DOUBLE(B1),B1:B2,B1:B2,7)", { error: "#NAME?" }, 7],
    ['SUBSTITUTE(GYLE.DOUBLE(B1),"4","x")', { error: "#NAME?" }, "x"],
    ["GYLE.DOUBLE(B1+NOW()*0)", 1, 4],
  ] as [string, CellValue, CellValue][])(
    "is written whatever was stored where all of that is sure: %s",
    (formula, stored, expected) => {
      const after = beside({ C1: plain(formula, stored) });
      expect(after.at("C1")).toBe(expected);
      expect(after.notes).toEqual([]);
    },
  );

  test.each([
    ['ROUND(GYLE.DOUBLE(B1)/3,1)&" %"', "4,2 %"],
    ['ROUND(GYLE.DOUBLE(B1)/3,1)&" %"', "4 %"],
    ['TEXT(GYLE.DOUBLE(B1),"0.0")', "5.0"],
    ["FIXED(GYLE.DOUBLE(B1),1)", "5.0"],
    ["LEN(GYLE.DOUBLE(B1)/3)", 3],
    ["SUBTOTAL(9,B1:B2)+GYLE.DOUBLE(B1)", 5],
    ['VALUE(GYLE.DOUBLE(B1)&"")', 5],
    ['SUBSTITUTE(GYLE.DOUBLE(B1),"4","x")', "y"],
  ] as [string, CellValue][])("needs the proof otherwise: %s", (formula, stored) => {
    const after = beside({ C1: plain(formula, stored) });
    expect(after.at("C1")).toBe(stored);
    expect(brief(after)).toEqual(["C1 left-as-it-was"]);
  });
});

test("the last digits around a call of ours are left to the program that stored them", () => {
  const after = beside({
    C1: plain("GYLE.DOUBLE(B2)/7", 1.42857142857143),
    C2: plain("GYLE.DOUBLE(B2)/7", 1.4285714285),
    C3: plain("GYLE.IDENTITY(B2)", 5.000000000000001),
  });
  expect(after.changed).toEqual(["A1", "C2", "C3"]);
});

describe("text in which the language of the spreadsheet program shows", () => {
  /** A1 goes from one value to another. */
  const after = (
    formula: string,
    from: CellValue,
    stored: CellValue,
    to: CellValue,
    more: SheetSketch = {},
  ) =>
    calculated(
      workbook({ S: { A1: plain("GYLE.IDENTITY(B1)", from), B1: to, C1: plain(formula, stored), ...more } }),
    ).at("C1");

  test.each([
    ["a decimal sign that is there already", 'A1&" %"', 4.5, "4.5 %", 4.7, "4.7 %"],
    ["whole numbers", '"Batch "&A1', 5, "Batch 5", 6, "Batch 6"],
    ["a decimal sign that goes", 'A1&" %"', 4.5, "4.5 %", 5, "5 %"],
    ["TEXT with one", 'TEXT(A1,"0.00")', 4.5, "4.50", 4.71, "4.71"],
    ["both signs", 'TEXT(A1,"#,##0.0")', 1234.5, "1,234.5", 4321, "4,321.0"],
    ["one of two signs", 'TEXT(A1,"#,##0.0")', 1234.5, "1,234.5", 4, "4.0"],
    ["a date in digits", 'TEXT(A1,"yyyy-mm-dd")', 46000, "2025-12-09", 46001, "2025-12-10"],
    [
      "words from cells and the formula",
      'IF(A1>1,"v1.5 of ","v1.6 of ")&B2&A1',
      1,
      "v1.6 of Ale 2.01",
      2,
      "v1.5 of Ale 2.02",
    ],
    ["TRUE and FALSE", '(A1>1)&""', 1, "FALSE", 2, "TRUE"],
    ["criteria, which are read back", 'COUNTIF(D1:D9,">"&A1)', 5, 0, 0.5, 1],
    ["addresses", 'INDIRECT("B"&A1)', 1, 2, 2, "Ale 2.0"],
    ["the length of whole numbers", 'LEN(A1&"")', 5, 1, 66, 2],
    ["parts of text", 'LEFT(A1,3)&"!"', "abcd", "abc!", "wxyz", "wxy!"],
  ] as [string, string, CellValue, CellValue, CellValue, CellValue][])(
    "is written for %s",
    (_, formula, from, stored, to, expected) => {
      expect(after(formula, from, stored, to, { B2: "Ale 2.0", D1: 1 })).toBe(
        formula.startsWith("INDIRECT") ? "Ale 2.0" : expected,
      );
    },
  );

  test.each([
    ["a decimal sign that was not there", 'A1&" %"', 5, "5 %", 4.7],
    ["one that stands in a text of the formula only", '"v1.5: "&A1', 5, "v1.5: 5", 4.7],
    ["one that stands in a text of a cell only", "B2&A1", 5, "Ale 2.05", 4.7],
    ["a sign between thousands", 'TEXT(A1,"#,##0")', 5, "5", 4321],
    ["a second one", 'TEXT(A1,"#,##0")', 4321, "4,321", 4321000],
    ["the name of another month", 'TEXT(A1,"d mmm")', 46113, "1 Apr", 46143],
    ["an exponent", 'A1&""', 4.5, "4.5", 1.5e-7],
    ["TRUE", 'IF(A1>1,TRUE&"","x")', 1, "x", 2],
    ["FIXED", "FIXED(A1,1)", 0, { error: "#VALUE!" }, 4.7],
    ["the length of a number with decimals", 'LEN(A1&"")', 5, 1, 4.75],
    ["part of one", "LEFT(A1,2)", 5, "5", 4.75],
    ["a comparison of one", 'IF(A1&""="4.75",1,0)', 5, 0, 4.75],
    ["what is replaced in one", 'SUBSTITUTE(A1,".","")', 5, "5", 4.75],
    ["text read as a number", "VALUE(A1)", "5", 5, "4.75"],
  ] as [string, string, CellValue, CellValue, CellValue][])(
    "is kept for %s",
    (_, formula, from, stored, to) => {
      expect(after(formula, from, stored, to, { B2: "Ale 2.0" })).toEqual(stored);
    },
  );
});

describe("LAMBDA, LET and @ around ours", () => {
  const names = [
    { name: "Twice", refersTo: "_xlfn.LAMBDA(_xlpm.x,_xldudf_GYLE_DOUBLE(_xlpm.x))" },
    { name: "Again", refersTo: "Twice" },
    { name: "Four", refersTo: "_xlfn.LAMBDA(_xlpm.y,Twice(Twice(_xlpm.y)))" },
    { name: "Self", refersTo: "_xlfn.LAMBDA(_xlpm.x,IF(_xlpm.x<1,0,Self(_xlpm.x-1)+GYLE.DOUBLE(1)))" },
  ];
  const cells = { A1: 1, A2: 2, A3: 3, B1: 10, B2: 20, B3: 30 };

  test.each([
    ["Twice(A2)", 4],
    ["Again(A2)", 4],
    ["Four(A2)+1", 9],
    ["SUM(Twice(A1:A3))", 12],
    ["SUM(_xlfn.MAP(A1:A3,Twice))", 12],
    ["_xlfn.LAMBDA(_xlpm.x,GYLE.DOUBLE(_xlpm.x))(A2)", 4],
    ["_xlfn.REDUCE(0,A1:A3,_xlfn.LAMBDA(_xlpm.a,_xlpm.v,_xlpm.a+GYLE.DOUBLE(_xlpm.v)))", 12],
    ["_xlfn.LET(_xlpm.x,GYLE.DOUBLE(A2),_xlpm.x+1)", 5],
    ["_xlfn.SINGLE(GYLE.DOUBLE(A2))", 4],
    ["_xlfn.SINGLE(GYLE.DOUBLE(A1:A3))", 2],
    ["@GYLE.DOUBLE(A2)*2", 8],
    ["GYLE.DOUBLE(_xlfn.SINGLE(A1:A3))", 4],
    ["GYLE.DOUBLE(_xlfn.SINGLE(A2))", 4],
    ["_xlfn.SINGLE(INDEX(A1:B3,2,2))+GYLE.DOUBLE(1)", 22],
    ['_xlfn.SINGLE(INDIRECT("A1:A3"))+GYLE.DOUBLE(1)', 4],
    ["IF(TRUE,_xlfn.SINGLE(GYLE.DOUBLE(A2)),0)", 4],
    ["SUM(_xlfn._xlws.FILTER(GYLE.DOUBLE(A1:A3),A1:A3>1))", 10],
    ["SUM(_xlfn._xlws.SORT(GYLE.DOUBLE(A1:A3)))", 12],
    ["SUM(_xlfn.BYROW(A1:B3,_xlfn.LAMBDA(_xlpm.r,SUM(GYLE.DOUBLE(_xlpm.r)))))", 132],
  ])("%s is calculated", (formula, expected) => {
    const after = calculated(workbook({ S: { ...cells, D2: plain(formula) } }, { names }));
    expect([after.at("D2"), after.notes, after.errors]).toEqual([expected, [], []]);
  });

  test.each([
    "Self(3)",
    "SUM(_xlfn.BYROW(GYLE.DOUBLE(A1:B3),_xleta.SUM))",
    "_xlfn.MAP(A1:A3,_xleta._xldudf_GYLE_DOUBLE)+GYLE.DOUBLE(1)",
    "_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.x,GYLE.DOUBLE(_xlpm.x)),_xlpm.f(3))",
    "_xlfn.LET(_xlpm.f,Twice,_xlpm.f(3))",
    "_xlfn.SINGLE(CHOOSE(1,A1:A3,B1:B3))+GYLE.DOUBLE(1)",
    "_xlfn.LET(_xlpm.a,1,_xlpm.b,_xlpm.a+1,_xlfn.LET(_xlpm.a,GYLE.DOUBLE(1),_xlpm.a+_xlpm.b))",
    "SUM(A1:A2 A2:A3)+GYLE.DOUBLE(1)",
  ])("%s is kept with a reason", (formula) => {
    const after = calculated(workbook({ S: { ...cells, D2: plain(formula, 77) } }, { names }));
    expect(after.changes).toEqual([]);
    expect(brief(after)).toEqual(["D2 left-as-it-was"]);
    expect(after.notes[0]?.message).toMatch(/^\S.*\. The stored value was left as it was\.$/);
  });

  test("an error of ours keeps its message under @", () => {
    const after = calculated(workbook({ S: { A1: '=_xlfn.SINGLE(GYLE.FAIL("no such glass"))' } }));
    expect(after.errors).toMatchObject([{ code: "#N/A", message: "no such glass" }]);
  });

  test("@ around what follows from ours", () => {
    const after = calculated(
      workbook({
        S: {
          A1: plain("GYLE.DOUBLE(2)", 3),
          B1: plain("_xlfn.SINGLE(A1)*2", 6),
          C1: plain("_xlfn.SINGLE($A$1:$A$9)", 3),
        },
      }),
    );
    expect([after.at("B1"), after.at("C1"), after.notes]).toEqual([8, 4, []]);
  });
});
