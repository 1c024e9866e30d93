// A formula is stored in the ordinary form wherever that calculates the same, since other programs keep the numbers of ordinary
// formulas only.
import { describe, expect, test } from "vitest";
import { needsArrays } from "../../src/formulas/needs-arrays.js";
import { ownFunctions } from "../../src/formulas/own-calls.js";
import { catalogue } from "../../src/functions/catalogue.js";

const functions = ownFunctions("GYLE", catalogue);

describe("a formula of one value", () => {
  test.each([
    "GYLE.ABV(1.050,1.010)",
    "GYLE.BLEND(B1:B2,C1:C2)",
    "GYLE.BLEND(B1:B2,C1:C2)*2",
    "ROUND(GYLE.FERMENT.RATE(A1:A9,B1:B9),1)",
    'IF(A1="","",GYLE.EFFICIENCY(B1,C1,D1:D4,E1:E4))',
    "GYLE.ABV(OG,FG)+0",
    "IF(Target>GYLE.ABV(A1,B1),1,2)",
    "SUM(GYLE.ABV(A1:A3,B1:B3))",
    "AVERAGE(INDEX(GYLE.SEASON(A1:A3,B1:B3,C1:C3,D1:D3),0,3))",
    'GYLE.ABV(VLOOKUP("x",A1:B9,2,FALSE),1.01)',
    "GYLE.ABV(INDEX(A1:A9,MATCH(3,B1:B9,0)),1.01)",
    'SUMIF(A1:A9,">1",B1:B9)/COUNTIF(A1:A9,">1")',
  ])("%s is an ordinary formula", (formula) => {
    expect(needsArrays(formula, functions)).toBe(false);
  });

  test.each([
    "SUM(A1:A3*2)",
    "SUM(GYLE.ABV(A1:A3,B1:B3)*2)",
    "MAX(IF(A1:A3>1,B1:B3,0))",
    "SUM(IF(A1=1,GYLE.ABV(A1:A3,B1:B3),0))",
    "SUM(VLOOKUP(A1:A3,D1:E9,2,FALSE))",
    "MAX(GYLE.ABV(A1:A3*2,B1:B3))",
    "COUNTIF(A1:A9,B1:B3)",
    "ROWS(UNIQUE(A1:A9))",
    "SUM(A1#)",
    "SUM({1,2}*A1)",
    "SUM(SEQUENCE(3)*A1)+GYLE.ABV(A1,B1)",
  ])("%s sums up more than one value on the way, so it must be stored as an array", (formula) => {
    expect(needsArrays(formula, functions)).toBe(true);
  });
});
