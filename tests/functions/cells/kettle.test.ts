import { describe, expect, test } from "vitest";
import { cells, column, error, number } from "../../support/cells.js";
import { figure, reference } from "../../support/reference.js";

test("CONVERT goes by NBS Table 114", () => {
  for (const row of reference("plato-sg-nbs114-apparent").slice(4))
    expect(number("CONVERT", figure(row, "brix"), "P", "SG")).toBeCloseTo(
      figure(row, "apparent_sg_20_20"),
      4.69,
    );
  expect(number("CONVERT", 1046, "SG", "PTS")).toBeCloseTo(46, 9);
  expect(error("CONVERT", 31, "P", "SG")).toMatch(/allowed are -4 to 30 °P/);
});

test("ABV, ABW, attenuation, real extract and energy are those of the computed comparison", () => {
  for (const row of reference("alcohol-beer-method-comparison")) {
    const [og, fg] = [figure(row, "OG"), figure(row, "FG")];
    expect(number("ABV", og, fg)).toBeCloseTo(figure(row, "abv_exact"), 1.5);
    expect(number("ABW", og, fg)).toBeCloseTo(figure(row, "ABW"), 1.5);
    expect(number("EXTRACT.REAL", og, fg)).toBeCloseTo(figure(row, "RE_P"), 1.5);
    expect(number("ATTENUATION.APPARENT", og, fg)).toBeCloseTo(figure(row, "ADF"), 0.7);
    expect(number("ATTENUATION.REAL", og, fg)).toBeCloseTo(figure(row, "RDF"), 0.7);
  }
  for (const row of reference("alcohol-beer-calories")) {
    const kcal = number("ENERGY", figure(row, "OG"), figure(row, "FG"));
    expect(Math.abs(kcal - figure(row, "kcal_100mL"))).toBeLessThan(0.1);
    expect(number("ENERGY", figure(row, "OG"), figure(row, "FG"), 330)).toBeCloseTo(3.3 * kcal, 9);
  }
});

test("FINAL.EXPECTED is written as the original is", () => {
  expect(number("FINAL.EXPECTED", 12, 75, "P")).toBeCloseTo(3, 12);
  const expected = number("FINAL.EXPECTED", 1.048, 75);
  expect(number("ATTENUATION.APPARENT", 1.048, expected)).toBeCloseTo(75, 6);
});

describe("VOLUME.COOLED", () => {
  test("is about 4 % less than at the boil (common practice, no source), in °C and °F", () => {
    expect(number("VOLUME.COOLED", 100, 100)).toBeCloseTo(96, 0);
    expect(number("VOLUME.COOLED", 100, 212, null, "F")).toBeCloseTo(number("VOLUME.COOLED", 100, 100), 9);
    expect(number("VOLUME.COOLED", 100, 212, 68, "F")).toBeCloseTo(number("VOLUME.COOLED", 100, 100), 9);
    expect(error("VOLUME.COOLED", 30, null)).toMatch(/temperature is empty/);
  });
});

describe("EXTRACT.MASS and EFFICIENCY", () => {
  test("give the grams per litre of a printed table, in any unit", () => {
    const row = reference("plato-sg-extract-gl-gost").find((each) => each["d20_20"] === "1.048");
    const kg = number("EXTRACT.MASS", 1, 1.048);
    expect(1000 * kg).toBeCloseTo(figure(row, "extract_g_per_L"), 0.5);
    expect(number("EXTRACT.MASS", 100, 1.048, "l", "g")).toBeCloseTo(1e5 * kg, 6);
    expect(number("EXTRACT.MASS", 1, 1.048, "GAL", "lbm")).toBeCloseTo((kg * 3.785411784) / 0.45359237, 9);
    expect(error("EXTRACT.MASS", 1, 1.048, "bbl")).toMatch(
      /volume unit is "bbl"; allowed are "l", "ml", "hl"/,
    );
  });

  test("agree with each other, whatever the units of the yields", () => {
    const grist = [column(4, 1), column(80, 70)];
    const mass = number("EXTRACT.MASS", 23, 1.042);
    const potential = number("EXTRACT.POTENTIAL", ...grist);
    expect(potential).toBeCloseTo(3.9, 12);
    expect(number("EFFICIENCY", 23, 1.042, ...grist)).toBeCloseTo((100 * mass) / potential, 9);
    // 37 points·gal/lb is about 80 %, by the table of 46.2 for sugar.
    expect(number("EXTRACT.POTENTIAL", 10, 37, "PPG", "lbm")).toBeCloseTo((10 * 37) / 46.2, 1);
    expect(number("EXTRACT.POTENTIAL", 10, 300, "LDK")).toBeCloseTo((10 * 300) / 385, 0.9);
    expect(
      cells("EXTRACT.POTENTIAL", column(1, 1), column(80, 37), column("PCT", "PPG"), "kg").flat()[0],
    ).toBeCloseTo(1.6, 1);
  });

  test("refuse an efficiency that units mixed up would give", () => {
    expect(error("EFFICIENCY", 230, 1.042, 5, 80)).toMatch(/Check the units of volume, mass and yield/);
  });
});

describe("the kettle", () => {
  test("keeps points × volume nearly, extract exactly", () => {
    expect(number("BOIL.GRAVITY", 30, 1.04, 25)).toBeCloseTo(1.048, 3);
    const strong = number("BOIL.GRAVITY", 30, 1.04, 25);
    expect(number("EXTRACT.MASS", 25, strong)).toBeCloseTo(number("EXTRACT.MASS", 30, 1.04), 9);
    expect(number("BOIL.VOLUME", 30, 1.04, strong)).toBeCloseTo(25, 6);
  });

  test("sends to the other function where the target lies on the other side", () => {
    expect(error("BOIL.VOLUME", 30, 1.05, 1.04)).toMatch(/To thin it, use DILUTE/);
    expect(error("DILUTE", 30, 1.04, 1.05)).toMatch(/use BOIL\.VOLUME or FORTIFY/);
    expect(error("BOIL.GRAVITY", 30, 1.04, 31)).toMatch(/use DILUTE/);
    expect(error("FORTIFY", 30, 1.05, 1.04)).toMatch(/use DILUTE/);
  });

  test("adds water and extract by mass", () => {
    const water = number("DILUTE", 23, 1.056, 1.048);
    expect(water).toBeCloseTo((23 * 8) / 48, 1); // points × volume, roughly
    expect(number("BLEND", column(23, water), column(1.056, 1))).toBeCloseTo(1.048, 9);
    const sugar = number("FORTIFY", 30, 1.036, 1.04);
    expect(number("FORTIFY", 30, 1.036, 1.04, 100)).toBeCloseTo(sugar, 12);
    expect(number("FORTIFY", 30, 1.036, 1.04, 79)).toBeGreaterThan(sugar / 0.79);
    expect(number("FORTIFY", 30, 1.036, 1.04, null, null, null, "g")).toBeCloseTo(1000 * sugar, 6);
    expect(error("FORTIFY", 30, 1.036, 1.04, 5)).toMatch(/An addition with 5 % extract cannot/);
  });

  test("blends by mass balance, not by averaging points", () => {
    expect(number("BLEND", column(10, 10), column(1.08, 1.02))).toBeCloseTo(1.05, 2.5);
    expect(number("BLEND", column(10, 10), column(1.08, 1.02))).not.toBeCloseTo(1.05, 5);
  });

  test("blends no volume whose gravity nobody gave", () => {
    for (const blank of [null, undefined, "", " ", 0])
      for (const scale of ["SG", "P"])
        expect(error("BLEND", column(10, 20), column(scale === "P" ? 12 : 1.05, blank), scale)).toMatch(
          /^#VALUE! Row 2: The gravity (is empty, but the volume is there|beside the volume is 0 or empty)/,
        );
    expect(number("BLEND", column(10, 20, null, 0), column(1.05, 1.06, null, 0))).toBeGreaterThan(1.05);
    expect(number("BLEND", column(10, null), column(1.05, 1.06))).toBeCloseTo(1.05, 9);
    expect(error("BLEND", 0.5, null)).toMatch(/gravity is empty/);
    expect(number("BLEND", column(10, 10), column(1.05, 1))).toBeLessThan(1.03);
  });

  test("names the row of a gravity that is none", () => {
    expect(error("BLEND", column(10, 20), column(1.05, 12))).toMatch(
      /^#VALUE! Row 2: The gravity is 12; as SG/,
    );
  });
});
