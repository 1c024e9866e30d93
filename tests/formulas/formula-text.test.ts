import { expect, test } from "vitest";
import { boundFormula, callsOurs, typedFormula } from "../../src/formulas/formula-text.js";
import { fakeFunctions } from "../engine/fixture.js";

const functions = fakeFunctions();

const pairs = [
  ["GYLE.DOUBLE(A1)", "_xldudf_GYLE_DOUBLE(A1)"],
  ['IF(B2="","",GYLE.KIND.OF(A1))', 'IF(B2="","",_xldudf_GYLE_KIND_OF(A1))'],
  ["SUM('GYLE.ADD(1)'!A1,GYLE.ADD(1,2))", "SUM('GYLE.ADD(1)'!A1,_xldudf_GYLE_ADD(1,2))"],
  ['"GYLE.ADD(" & GYLE.ADD(1,2)', '"GYLE.ADD(" & _xldudf_GYLE_ADD(1,2)'],
] as const;

test.each(pairs)("%s is stored as %s, and read back as typed", (typed, stored) => {
  expect(boundFormula(typed, functions)).toBe(stored);
  expect(typedFormula(stored, functions)).toBe(typed);
});

test("a typed formula shows no prefixes of files", () => {
  expect(typedFormula("_xlfn._xlws.FILTER(A1:A3,_xldudf_gyle_double(A1:A3)>2)", functions)).toBe(
    "FILTER(A1:A3,GYLE.DOUBLE(A1:A3)>2)",
  );
});

test("what calls ours is told from what only mentions it", () => {
  expect(callsOurs("1+_xldudf_GYLE_DOUBLE(A1)", functions)).toBe(true);
  expect(callsOurs("gyle.no.such(A1)", functions)).toBe(true);
  expect(callsOurs('"GYLE.DOUBLE(1)"', functions)).toBe(false);
  expect(callsOurs("_xldudf_OTHER_DOUBLE(A1)", functions)).toBe(false);
});

test("a typed formula does not say in which workbook our functions were once sought", () => {
  expect(typedFormula("[2]!_xldudf_GYLE_DOUBLE([2]Sheet1!A1)", functions)).toBe("GYLE.DOUBLE([2]Sheet1!A1)");
  expect(typedFormula("=[2]!OTHER.DOUBLE(A1)", functions)).toBe("=[2]!OTHER.DOUBLE(A1)");
});

test.each([
  ["[2]!_xldudf_GYLE_DOUBLE([2]Sheet1!A1)", "_xldudf_GYLE_DOUBLE([2]Sheet1!A1)"],
  ["'C:\\Brew (old), x\\[add in.xlam]Sheet'!GYLE.DOUBLE(A1)", "_xldudf_GYLE_DOUBLE(A1)"],
  ["'C:\\addins\\gyle.xlam'!_xldudf_GYLE_DOUBLE(A1)+1", "_xldudf_GYLE_DOUBLE(A1)+1"],
  ["_xlfn.GYLE.DOUBLE(A1)", "_xldudf_GYLE_DOUBLE(A1)"],
  ["_xludf._xldudf_GYLE_DOUBLE(_xlfn.XLOOKUP(1,A:A,B:B))", "_xldudf_GYLE_DOUBLE(_xlfn.XLOOKUP(1,A:A,B:B))"],
  ["'Brew (day)'!A1+[2]!OTHER.DOUBLE(A1)", "'Brew (day)'!A1+[2]!OTHER.DOUBLE(A1)"],
])("%s is written so that our functions are found in it: %s", (found, bound) => {
  expect(boundFormula(found, functions)).toBe(bound);
});
