import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { nameSources } from "../../src/formulas/name-source.js";
import { renamedFormula } from "../../src/formulas/rename.js";
import { textLiteral } from "../../src/formulas/text-literal.js";
import { nameKey } from "../../src/instruments/name.js";
import { functions } from "./functions.js";

const read = (formula: string) => {
  const { written, references, computed } = nameSources(formula, functions);
  return { texts: written.map(({ text }) => text), references, computed };
};
const texts = (...found: string[]) => ({ texts: found, references: [], computed: false });
const references = (...found: string[]) => ({ texts: [], references: found, computed: false });
const computed = { texts: [], references: [], computed: true };

describe("where a formula takes names of instruments from", () => {
  test.each([
    ['=GYLE.HYDROMETER(A1,B1,"Glass")', texts("Glass")],
    ['=GYLE.HYDROMETER(A1,B1,"the ""good"" one, (new)")', texts('the "good" one, (new)')],
    ['=GYLE.HYDROMETER(A1,B1,"ציר → 🍺")', texts("ציר → 🍺")],
    ['=gyle.season(A1:A9,B1:B9,C1:C9,D1:D9,"Start","End")', texts("Start", "End")],
    ['=GYLE.HYDROMETER(A1,B1,{"One";"Two, 2"})', texts("One", "Two, 2")],
    ["=GYLE.HYDROMETER(A1,B1,7)", texts("7")],
    ["=GYLE.HYDROMETER(A1,B1,0)", texts()],
    ['=GYLE.HYDROMETER(A1,B1,"  ")', texts()],
    ["=GYLE.HYDROMETER(A1,B1,)", texts()],
    ["=GYLE.HYDROMETER(A1,B1)", texts()],
    ['=GYLE.CONVERT(A1,"P","SG")', texts()],
    ['=GYLE.ABV(A1,B1,"BALLING")&"Glass"', texts()],
    ['=GYLE.ABV(GYLE.HYDROMETER(A1,B1,"Glass"),1.01,"DUTY-UK")', texts("Glass")],
    ["=GYLE.HYDROMETER(A1,B1,$C$2)", references("$C$2")],
    ["=GYLE.HYDROMETER(A1:A9,B1:B9,(@'Brew day'!C1:C9))", references("'Brew day'!C1:C9")],
    ['=GYLE.INSTRUMENT(my_glass,"scale")', references("my_glass")],
    ['=GYLE.INSTRUMENT([@[Read, with]],"scale")', references("[@[Read, with]]")],
    ["=GYLE.INSTRUMENT(C:C,1)", references("C:C")],
    ['=GYLE.HYDROMETER(A1,B1,IF(A2,"Glass","Old"))', computed],
    ['=GYLE.HYDROMETER(A1,B1,"Gl"&"ass")', computed],
    ["=GYLE.HYDROMETER(A1,B1,C2#)", references("C2#")],
    ["=GYLE.HYDROMETER(A1,B1,(_xlfn.ANCHORARRAY('Brew day'!C2)))", computed],
    ["=GYLE.HYDROMETER(A1,B1,_xlfn.ANCHORARRAY('Brew day'!C2))", references("'Brew day'!C2#")],
    ["=GYLE.HYDROMETER(A1,B1,SORT(C2#))", computed],
    ['=LET(n,"Glass",GYLE.HYDROMETER(A1,B1,n))', computed],
    ["=BYROW(A1:A9,LAMBDA(r,GYLE.HYDROMETER(r,B1,r)))", computed],
  ])("%s", (formula, expected) => {
    expect(read(formula)).toEqual(expected);
  });
});

describe("another name in a formula's own text", () => {
  test.each([
    [
      '= GYLE.HYDROMETER( A1 ,\n B1, " glass " ) & "Glass"',
      '= GYLE.HYDROMETER( A1 ,\n B1, "New ""5"" → 🍺" ) & "Glass"',
    ],
    [
      '=[2]!_xldudf_GYLE_SEASON(A1,B1,C1,D1,"GLASS","Other")+SUM({"Glass",1})',
      '=[2]!_xldudf_GYLE_SEASON(A1,B1,C1,D1,"New ""5"" → 🍺","Other")+SUM({"Glass",1})',
    ],
    [
      '=GYLE.HYDROMETER(A1,B1,{"Glass";"Other";"glass"})',
      '=GYLE.HYDROMETER(A1,B1,{"New ""5"" → 🍺";"Other";"New ""5"" → 🍺"})',
    ],
    ['=GYLE.CONVERT(A1,"Glass","Glass")', '=GYLE.CONVERT(A1,"Glass","Glass")'],
    ['=GYLE.HYDROMETER(A1,B1,IF(1,"Glass"))', '=GYLE.HYDROMETER(A1,B1,IF(1,"Glass"))'],
    [
      '=\'C:\\x"(y\\[b.xlsx]S\'!A1&GYLE.INSTRUMENT("Glass","scale")',
      '=\'C:\\x"(y\\[b.xlsx]S\'!A1&GYLE.INSTRUMENT("New ""5"" → 🍺","scale")',
    ],
  ])("%s", (formula, renamed) => {
    expect(renamedFormula(formula, "Glass", 'New "5" → 🍺', functions)).toBe(renamed);
  });

  test("a name with quotes in it is found by what it says", () => {
    expect(renamedFormula('=GYLE.INSTRUMENT("a ""b"" c",1)', 'A "B" C', "x", functions)).toBe(
      '=GYLE.INSTRUMENT("x",1)',
    );
  });
});

test("any name can be renamed to any other, and nothing around it changes", () => {
  const name = fc
    .string({ unit: "binary", minLength: 1, maxLength: 100 })
    .filter((text) => nameKey(text) !== "");
  fc.assert(
    fc.property(name, name, (from, to) => {
      const [head, tail] = ['=IF("Glass"="x",', "&GYLE.ABV(1, 2))"];
      const call = (text: string): string => `${head}GYLE.HYDROMETER( A1,B1 ,${textLiteral(text)} )${tail}`;
      expect(read(call(from)).texts).toEqual([from]);
      expect(renamedFormula(call(from), from, to, functions)).toBe(call(to));
    }),
  );
});
