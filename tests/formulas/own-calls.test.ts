import { describe, expect, test } from "vitest";
import { parseFormula } from "../../src/formulas/own-calls.js";
import { singleCall } from "../../src/formulas/single-call.js";
import { functions } from "./functions.js";

const called = (formula: string): string[] =>
  parseFormula(formula, functions).calls.map(({ function: fn }) => fn.id);

describe("finds our calls", () => {
  test.each([
    ["=GYLE.ABV(A1,B1)", ["ABV"]],
    ["=gyle.Abv(A1,B1)*100", ["ABV"]],
    ["=_xldudf_GYLE_REFRACTOMETER_BEER(A1,B1)", ["REFRACTOMETER.BEER"]],
    ["=[2]!_xldudf_GYLE_ABV(A1,B1)", ["ABV"]],
    ["='C:\\Brewery (old)\\Add in.xll'!GYLE.ABV(A1,B1)", ["ABV"]],
    ["='C:\\a,(\\[b.xlsx]S'!A1+GYLE.ABV(A1,B1)", ["ABV"]],
    ['=IF(A1="(",GYLE.ABV(A1,GYLE.CONVERT(B1,"P","SG")),0)', ["CONVERT", "ABV"]],
    ["=\n  GYLE.ABV(\n    A1,\r\n    B1 )", ["ABV"]],
    ['=LET(x,GYLE.ABV(A1,B1),MAP(C1:C9,LAMBDA(c,GYLE.CONVERT(c,"P","SG")+x)))', ["ABV", "CONVERT"]],
    ['=SUM(Batches[Original (SG), "true"])+GYLE.ABV(A1,B1)', ["ABV"]],
  ])("%s", (formula, names) => {
    expect(called(formula)).toEqual(names);
  });
});

describe("takes nothing else for ours", () => {
  test.each([
    '="GYLE.ABV(A1,B1)"',
    '="say ""GYLE.ABV(A1)"" to it"',
    "=MYGYLE.ABV(A1,B1)",
    "=OLD.GYLE.ABV(A1,B1)",
    "=OLD_xldudf_GYLE_ABV(A1,B1)",
    "=GYLE.ABV",
    "='GYLE.ABV(1)'!A1",
    "=GYLE.NOSUCH(A1)",
    "GYLE.ABV(A1",
    "1.046",
    "",
  ])("%s", (formula) => {
    expect(called(formula)).toEqual([]);
  });
});

test("arguments keep their own commas and brackets", () => {
  const [call] = parseFormula('=GYLE.ABV({1,2;3,4},"a,(""b")', functions).calls;
  expect(call?.args.map((argument) => argument.map(({ value }) => value).join(""))).toEqual([
    "{1,2;3,4}",
    '"a,(""b"',
  ]);
});

test("a formula as long as Excel allows is read to its end", () => {
  const end = "+GYLE.ABV(A1,B1)";
  const formula = `=${"1+".repeat((8192 - end.length - 2) / 2)}1${end}`;
  expect(formula.length).toBe(8192);
  expect(called(formula)).toEqual(["ABV"]);
});

describe("a formula that is nothing but one call", () => {
  test.each([
    [
      '=GYLE.HYDROMETER(A1, -1.5 ,"a ""b""",)',
      "HYDROMETER",
      [{ reference: "A1" }, { value: -1.5 }, { value: 'a "b"' }, undefined],
    ],
    [
      "=@gyle.ABV($A$1:B9,'Brew day'!B:B)",
      "ABV",
      [{ reference: "$A$1:B9" }, { reference: "'Brew day'!B:B" }],
    ],
    [
      "=[2]!_xldudf_GYLE_ABV(Batches[@OG],final)",
      "ABV",
      [{ reference: "Batches[@OG]" }, { reference: "final" }],
    ],
    ["=GYLE.ABV(50%,1e3,true)", "ABV", [{ value: 0.5 }, { value: 1000 }, { value: true }]],
    ["=GYLE.ABV(A1#,ANCHORARRAY(B1))", "ABV", [{ reference: "A1#" }, { reference: "B1#" }]],
    ["=GYLE.ABV()", "ABV", []],
  ])("%s", (formula, name, args) => {
    expect(singleCall(formula, functions)).toEqual({ name, args });
  });

  test.each([
    "=GYLE.ABV(A1,B1)*2",
    "=-GYLE.ABV(A1,B1)",
    "=(GYLE.ABV(A1,B1))",
    "=IF(A1,GYLE.ABV(A1,B1))",
    '=GYLE.ABV(A1,GYLE.CONVERT(B1,"P","SG"))',
    "=GYLE.ABV(A1+1,B1)",
    "=GYLE.ABV({1,2},B1)",
    "=GYLE.ABV(A1#*2,B1)",
    "=GYLE.ABV(#REF!,B1)",
    "=GYLE.ABV(A1,B1)+GYLE.ABV(A2,B2)",
    "=SUM(A1)",
  ])("%s is more than that", (formula) => {
    expect(singleCall(formula, functions)).toBeUndefined();
  });
});
