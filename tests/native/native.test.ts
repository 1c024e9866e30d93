// Native formulas as recalc calculates them, against two spreadsheets that others have written. More of them are
// asked by `npm run fuzz -- --native`.
import { describe, expect, test } from "vitest";
import { calculated } from "../../src/engine/univer/calculated-functions.js";
import { libreOffice as office } from "../support/tools.js";
import { plain, calculated as after, workbook } from "../engine/workbooks.js";
import type { CellValue } from "../../src/workbook/model.js";
import { ours } from "./engines.js";
import { compareEngines, tally, told } from "./random-book.js";
import { notCompared, signatures } from "./signatures.js";

describe.runIf(office.present)("2,000 random formulas, beside LibreOffice and IronCalc", () => {
  test("the others never agree against ours, and no formula has two values", async () => {
    const { cases, torn } = await compareEngines(20_261_129, 2000);
    expect(cases.filter(({ verdict }) => verdict.startsWith("ours")).map(told)).toEqual([]);
    expect(torn).toEqual([]);
    const counts = tally(cases);
    // Few are withheld, and most are as everybody has them: or the comparison would show nothing.
    expect(counts["all agree"]).toBeGreaterThan(1400);
    expect(counts["not calculated here"]).toBeLessThan(200);
  });
});

test("every function that is calculated is asked in random formulas", () => {
  const asked = (name: string): boolean => signatures.has(name) || notCompared.has(name);
  expect(calculated.names.filter((name) => !asked(name))).toEqual([]);
  expect([...signatures.keys(), ...notCompared].filter((name) => !calculated.knows(name))).toEqual([]);
});

describe("a comparison with an error is that error, whatever was compared before", () => {
  const book = (value: string): ReturnType<typeof after> =>
    after(
      workbook({
        S: {
          A1: plain(value),
          B1: plain('IF(A1>=4.5,"in spec","too weak")'),
          C1: plain('IF(A1<4.5,"too weak","in spec")'),
          D1: plain("AND(A1>4,TRUE)"),
          E1: plain("SUMPRODUCT((A1:A2>4)*1)"),
          F1: plain('IF(A1<4.5,"too weak","in spec")'),
        },
      }),
    );

  test("an error of ours", () => {
    const error = { error: "#N/A" };
    const now = book("GYLE.FAIL()");
    expect(["B1", "C1", "D1", "E1", "F1"].map((cell) => now.at(cell))).toEqual([
      error,
      error,
      error,
      error,
      error,
    ]);
  });

  // Text is more than any number.
  test('"" of ours', () => {
    const now = book('GYLE.IDENTITY("")');
    expect(["B1", "C1", "D1", "E1", "F1"].map((cell) => now.at(cell))).toEqual([
      "in spec",
      "in spec",
      true,
      1,
      "in spec",
    ]);
  });

  test("a number of ours", () => {
    const now = book("GYLE.DOUBLE(2.1)");
    expect(["B1", "C1", "D1", "E1", "F1"].map((cell) => now.at(cell))).toEqual([
      "too weak",
      "too weak",
      true,
      1,
      "too weak",
    ]);
  });
});

test("text that spells an error is a text", () => {
  const now = after(
    workbook({
      S: { A1: { text: "#N/A" }, B1: plain('IF(ISERROR(A1),"error",A1)&GYLE.IDENTITY("!")') },
    }),
  );
  expect(now.at("B1")).toBe("#N/A!");
});

// Each program has another value here. What Excel's own help says of the function is told from memory.
test.each<[formula: string, value: CellValue, help: string]>([
  ['COUNT({"a",1,TRUE})', 1, "COUNT: of an array only the numbers are counted"],
  ["OR(Data!A5=Data!A9,Data!F2:F9)", { error: "#NUM!" }, "an error among the arguments is the result"],
  ["(Data!B8&(1<2))", "ipa xTRUE", "a truth that is joined to text is written as TRUE"],
])("=%s, which programs calculate in different ways, is %j", (formula, expected) => {
  const { results, refusals } = ours([formula]);
  expect([...refusals.values()]).toEqual([]);
  expect(results).toEqual([expected]);
});

test.each(["MIN(Data!H2:H9,(1>2))", "STDEV.S(Data!H2:H4,(1<2))", 'VAR.S(1,"3")', 'FIND("","a",2)'])(
  "=%s, where two programs stand together against Excel's help, is not calculated",
  (formula) => {
    expect([...ours([formula]).refusals.keys()]).toEqual([formula]);
  },
);

// The example of FREQUENCY in Excel's help, told from memory.
test("FREQUENCY counts up to each bin, and passes the first error on", () => {
  const scores = "{79;85;78;85;50;81;95;88;97}";
  const counts = [1, 2, 3, 4].map((bin) => `INDEX(FREQUENCY(${scores},{70;79;89}),${bin})`);
  expect(ours([...counts, "INDEX(FREQUENCY(Data!A2:A9,Data!E2:E9),1)"]).results).toEqual([
    1,
    2,
    4,
    2,
    { error: "#VALUE!" },
  ]);
});

// A sign binds before a power and before "&".
test.each([
  ["--2^0", 1],
  ["---2^0", 1],
  ["--Data!A3^0", 1],
  ["Data!A3&--2", "22"],
  ["2---Data!A3", 0],
  ["- -(2)", 2],
  ["--(Data!A3>1)", 1],
  ["2--SUM(Data!A3,1)*3", 11],
])("=%s is %j", (formula, expected) => {
  expect(ours([formula]).results).toEqual([expected]);
});
