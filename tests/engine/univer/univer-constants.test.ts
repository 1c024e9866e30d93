// Constants of formulas as Excel reads them: a number is its value however it is written, a text stays a text.
import { expect, test } from "vitest";
import { UniverEngine } from "../../../src/engine/univer/univer-engine.js";
import { Values, type FormulaValue } from "../../../src/engine/values.js";
import { fakeFunctions } from "../fixture.js";

const corner = { sheet: 0, row: 0, column: 0 };
const engine = new UniverEngine(["Sheet1"], fakeFunctions());

function valueOf(formula: string): FormulaValue {
  const value = engine.evaluate(engine.parse(formula), corner, corner);
  return value instanceof Values ? (value.rows[0]?.[0] ?? null) : value;
}

test.each([
  ['="a"&1.50&"b"', "a1.5b"],
  ['="a"&.50&1.&"b"', "a0.51b"],
  ["=ISTEXT(1.50)", false],
  ["=0.50>1", false],
  ["=-1.50", -1.5],
  ["=1.50=1.5", true],
  ["=1.50E-02+1e3", 1000.015],
  ["=SUM({1.50,2})", 3.5],
  ["=MATCH(1.5,{1.50,2.0},0)", 1],
  ['=COLUMNS({"a,b","c;d"})', 2],
  ['=INDEX({"a""b",-1.50;TRUE,2},1,1)', 'a"b'],
  ['=INDEX({"a,b",-1.50;TRUE,2},1,2)', -1.5],
  ['=ISNUMBER(IF(TRUE,"1,046"))', false],
  ['=IF(TRUE,"2026-03-01")', "2026-03-01"],
  ['=IF(TRUE,"0x10")', "0x10"],
])("%s is %j", (formula, expected) => {
  expect(valueOf(formula)).toEqual(expected);
});
