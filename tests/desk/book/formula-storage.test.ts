// How the desk stores what was typed.
import { expect, test } from "vitest";
import { storedText } from "../../../src/desk/book/formula-storage.js";
import { spelledFormula } from "../../../src/desk/typing/spelled-formula.js";
import { loadFunctions } from "../../support/functions-bundle.js";
import { built } from "../../e2e/browser.js";

const { functions } = loadFunctions(built("").pathname);

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
