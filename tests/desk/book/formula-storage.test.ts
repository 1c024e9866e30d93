// How the desk stores what was typed: in the ordinary form wherever that calculates the same, since other programs keep the
// numbers of ordinary formulas only.
import { describe, expect, test } from "vitest";
import { needsArrays, storedText } from "../../../src/desk/book/formula-storage.js";
import { spelledFormula } from "../../../src/desk/typing/spelled-formula.js";
import { loadFunctions } from "../../support/functions-bundle.js";
import { built } from "../../e2e/browser.js";

const { functions } = loadFunctions(built("").pathname);

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
  ])("%s sums up more than one value on the way, so it must be stored as an array", (formula) => {
    expect(needsArrays(formula, functions)).toBe(true);
  });
});

test("names of functions are stored as files have them, and all else as it was typed", () => {
  expect(storedText('GYLE.CONVERT(1.050,"SG","P")&"GYLE.ABV(1.0)"', functions)).toBe(
    '_xldudf_GYLE_CONVERT(1.050,"SG","P")&"GYLE.ABV(1.0)"',
  );
});

test.each([
  ['=if(1.50>a1,"yes","no")', '=IF(1.50>A1,"yes","no")'],
  ["=sum('it''s a1'!b2:c3,log!d4)", "=SUM('it''s a1'!B2:C3,log!D4)"],
  ["=sum( a1:a3 ,(b1", "=SUM( A1:A3 ,(B1))"],
  ['=len("(")', '=LEN("(")'],
  ["=true+1e3%+.50", "=TRUE+1e3%+.50"],
  ["=let(x,1.50,f,lambda(y,y+x),f(2))", "=LET(x,1.50,f,LAMBDA(y,y+x),f(2))"],
  ["=let(Volume,1,x,2,volume+VOLUME*X)", "=LET(Volume,1,x,2,Volume+Volume*x)"],
  ["=lambda(Y,y*2)(3)+LET(f,LAMBDA(z,Z),F(1))", "=LAMBDA(Y,Y*2)(3)+LET(f,LAMBDA(z,z),f(1))"],
  ["=Target+Brews[Gravity]", "=Target+Brews[Gravity]"],
  ['={1.0,"a";true,#n/a}', '={1.0,"a";TRUE,#n/a}'],
  ["=a1#", "=A1#"],
  ["=1+", "=1+"],
])("%s is spelled %s", (typed, spelled) => {
  expect(spelledFormula(typed)).toBe(spelled);
});
