import { expect, test } from "vitest";
import { meansSamePlain } from "../../src/formulas/plain-form.js";
import { functions } from "./functions.js";

// What a plain formula makes of a range: Microsoft, "Implicit intersection operator: @".
const cases: readonly (readonly [formula: string, same: boolean])[] = [
  ["_xldudf_GYLE_ABV(A1,B1)", true],
  ["[2]!_xldudf_GYLE_ABV(A1,B1)*2", true],
  ['IF($A$1="","",ROUND(GYLE.ABV(A1,Other!B1),2))&" %"', true],
  // Our own functions take ranges as they are, in either form.
  ["ROUND(GYLE.SEASON(A1:A4,B1:B4,C1:C4,D1:D4),1)", true],
  ["IF(COUNT(A1:A9)=0,GYLE.ABV(A1,B1),SUM(A:A))", true],
  ["SUM(A1:A3*B1:B3)+GYLE.ABV(D1,E1)", false],
  ["IF(A1:A3>1,GYLE.ABV(D1,E1),0)", false],
  ["SUM(IF(A1:A3>1,1,0))*GYLE.ABV(D1,E1)", false],
  ["SUM({1,2}*A1)+GYLE.ABV(D1,E1)", false],
  ["SUM(_xlfn.ANCHORARRAY(D4))+GYLE.ABV(D1,E1)", false],
  ["SUM(_xlfn._xlws.FILTER(A1:A3,B1:B3))+GYLE.ABV(D1,E1)", false],
  ["SUM(Readings)+GYLE.ABV(D1,E1)", true],
  ["SUM(Readings*2)+GYLE.ABV(D1,E1)", false],
];

for (const [formula, same] of cases)
  test(`${formula} ${same ? "means the same" : "may mean something else"} in the plain form`, () => {
    expect(meansSamePlain(formula, functions)).toBe(same);
  });
