import { describe, expect, test } from "vitest";
import { litresPer } from "../../../src/core/brewhouse/units.js";
import { cell, cells, column, error, number } from "../../support/cells.js";
import { figure, reference, rowsWith } from "../../support/reference.js";

const LB = 0.45359237; // kg, exact by definition

describe("units that a formula leaves out are those of the yield", () => {
  test("PPG goes with US gallons and pounds: 6 gal of 1.050 from 12 lb of 36 points·gal/lb", () => {
    // Points × gallons, roughly: 50·6 of 36·12.
    expect(number("EFFICIENCY", 6, 1.05, column(12), column(36), "PPG")).toBeCloseTo((100 * 300) / 432, 0);
    const named = number("EFFICIENCY", 6, 1.05, column(12), column(36), "PPG", "gal", "lbm");
    for (const units of [[], ["gal"], [null, "lbm"], [0, ""]])
      expect(number("EFFICIENCY", 6, 1.05, column(12), column(36), "PPG", ...units)).toBe(named);
    expect(number("EXTRACT.POTENTIAL", column(12), column(36), "PPG")).toBe(
      number("EXTRACT.POTENTIAL", column(12), column(36), "PPG", "lbm"),
    );
    expect(number("FORTIFY", 6, 1.036, 1.04, 44, "PPG")).toBe(
      number("FORTIFY", 6, 1.036, 1.04, 44, "PPG", "gal", "lbm"),
    );
  });

  test("litre-degrees and percent go with litres and kilograms", () => {
    for (const [unit, yields] of [
      ["LDK", 300],
      ["PCT", 78],
      [null, 78],
    ] as const) {
      expect(number("EFFICIENCY", 23, 1.05, column(5), column(yields), unit)).toBe(
        number("EFFICIENCY", 23, 1.05, column(5), column(yields), unit, "l", "kg"),
      );
      expect(number("FORTIFY", 23, 1.036, 1.04, yields, unit)).toBe(
        number("FORTIFY", 23, 1.036, 1.04, yields, unit, "l", "kg"),
      );
    }
  });

  test("but a unit that is named is taken at its word, whatever the yield is stated in", () => {
    const own = number("EFFICIENCY", 6, 1.05, column(12), column(36), "PPG");
    const [litres, kilograms] = [6 * litresPer.gal, column(12 * LB)];
    expect(number("EFFICIENCY", litres, 1.05, kilograms, column(36), "PPG", "l", "kg")).toBeCloseTo(own, 9);
    expect(number("EFFICIENCY", 6, 1.05, kilograms, column(36), "PPG", "gal", "kg")).toBeCloseTo(own, 9);
    expect(number("EXTRACT.POTENTIAL", kilograms, column(36), "PPG", "kg")).toBeCloseTo(
      number("EXTRACT.POTENTIAL", column(12), column(36), "PPG") * LB,
      9,
    );
  });

  test("one that is named is never mixed with one of the other system that is not", () => {
    const [amount, percent] = [column(12), column(80)];
    for (const [message, ...units] of [
      [/volume unit is "l".*mass unit is left out and would be "lbm".*"kg" or "lbm"/, "PPG", "l"],
      [/mass unit is "kg".*volume unit is left out and would be "gal".*"l" or "gal"/, "PPG", null, "kg"],
      [/volume unit is "gal".*mass unit is left out and would be "kg"/, "LDK", "gal"],
      [/volume unit is "gal".*mass unit is left out and would be "kg"/, null, "gal"],
      [/volume unit is "uk_beer_bbl"/, "PCT", "uk_beer_bbl"],
      [/mass unit is "lbm".*volume unit is left out and would be "l"/, "PCT", null, "lbm"],
    ] as const) {
      expect(error("EFFICIENCY", 6, 1.05, amount, percent, ...units)).toMatch(message);
      expect(error("FORTIFY", 6, 1.036, 1.04, 30, ...units)).toMatch(message);
    }
    expect(number("EFFICIENCY", 6, 1.05, amount, percent, null, "gal", "lbm")).toBeGreaterThan(60);
    expect(number("EFFICIENCY", 0.06, 1.05, column(3), percent, null, "hl")).toBeLessThan(40);
  });

  test("in a list they must be the same for all rows, or be named", () => {
    const [amounts, yields, units] = [column(1, 1), column(80, 37), column("PCT", "PPG")];
    expect(error("EXTRACT.POTENTIAL", amounts, yields, units)).toMatch(
      /yield units differ from row to row.*mass unit is left out/,
    );
    expect(error("EFFICIENCY", 5, 1.05, amounts, yields, units, null, "kg")).toMatch(
      /volume unit is left out/,
    );
    expect(number("EXTRACT.POTENTIAL", amounts, yields, units, "kg")).toBeCloseTo(1.6, 1);
    expect(error("EXTRACT.POTENTIAL", amounts, yields, column("PPG", ""))).toMatch(
      /^#VALUE! Row 2: The yield unit of this row is empty, but other rows name one/,
    );
    expect(error("EXTRACT.POTENTIAL", amounts, yields, null, column("lbm", 0))).toMatch(
      /^#VALUE! Row 2: The mass unit of this row is empty/,
    );
  });
});

describe("a barrel of beer", () => {
  const law = (unit: string): number =>
    figure(
      reference("units-legal-volumes").find((row) => row["unit"] === unit),
      "litres",
    );
  const inLitres = (unit: string): number =>
    number("EXTRACT.MASS", 1, 1.05, unit) / number("EXTRACT.MASS", 1, 1.05);

  test("is what the law says, in the US and the UK", () => {
    expect(inLitres("us_beer_bbl")).toBeCloseTo(law("US beer barrel"), 6);
    expect(inLitres("us_beer_bbl")).toBeCloseTo(31 * law("US gallon"), 9);
    expect(inLitres("UK_beer_bbl")).toBeCloseTo(law("UK excise beer barrel"), 9);
    expect(inLitres("uk_beer_bbl")).toBeCloseTo(36 * law("imperial gallon"), 9);
  });

  test("holds every size of keg and case as often as printed", () => {
    const rows = rowsWith("units-legal-volumes", "us_barrels");
    expect(rows.length).toBeGreaterThan(5);
    for (const row of rows)
      expect(figure(row, "litres") / inLitres("us_beer_bbl")).toBeCloseTo(figure(row, "us_barrels"), 5);
  });

  test("is never meant by CONVERT's bbl, which is one of oil", () => {
    expect(error("EXTRACT.MASS", 1, 1.05, "bbl")).toMatch(/"us_beer_bbl", "uk_beer_bbl"/);
  });

  test("may be used wherever a volume has a unit", () => {
    expect(cell("EFFICIENCY", 10, 1.05, column(400), column(80), null, "us_beer_bbl", "kg")).toBeTypeOf(
      "number",
    );
    expect(
      cells("FORTIFY", 1, 1.036, 1.04, null, null, column("uk_beer_bbl", "us_beer_bbl"), "lbm").flat(),
    ).toEqual([expect.any(Number), expect.any(Number)]);
  });
});
