// Where nothing has fermented the final gravity is the original one, and below it no original gravity can be.
import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { useInstruments } from "../../../src/functions/contract/instruments-port.js";
import { cell, cells, error, number } from "../../support/cells.js";
import { instruments } from "../../support/instruments.js";

beforeAll(() => {
  useInstruments(instruments);
});

const gravity = fc.integer({ min: 10_005, max: 11_280 }).map((n) => n / 10_000);
/** The same gravity, as a chain of formulas may come back to it: off in its last digits. */
const again = (sg: number): number =>
  number("CONVERT", number("CONVERT", number("CONVERT", sg, "SG", "KGM3"), "KGM3", "P"), "P", "SG");

describe("beer whose final gravity is the original one", () => {
  test("has no alcohol by any method, exactly", () => {
    fc.assert(
      fc.property(gravity, (sg) => {
        for (const final of [sg, again(sg)]) {
          for (const method of ["BALLING", "RULE", "DUTY-UK"]) expect(cell("ABV", sg, final, method)).toBe(0);
          if (sg > 1.024) expect(cell("ABV", sg, final, "QUOTIENT")).toBe(0);
          expect(cell("ABW", sg, final)).toBe(0);
          expect(cell("ATTENUATION.APPARENT", sg, final)).toBe(0);
          expect(cell("ATTENUATION.REAL", sg, final)).toBe(0);
          expect(number("EXTRACT.REAL", sg, final)).toBeCloseTo(number("CONVERT", sg, "SG", "P"), 6);
        }
      }),
    );
    expect(cell("ABV", 12.3, 12.3, null, "P")).toBe(0);
  });

  test("still has energy, extract and an uncertainty, and would make no carbon dioxide", () => {
    // 4 kcal per gram of extract less 0.1 % of ash (ASBC Beer-33); 12.39 °P of 1.05 (NBS Table 114) is 13.0 g in 100 mL.
    expect(number("ENERGY", 1.05, 1.05)).toBeCloseTo(4 * (12.39 - 0.1) * 1.05, 0);
    expect(number("PLUSMINUS.ABV", 1.05, 1.05, 0.001, 0.001)).toBeGreaterThan(0.1);
    expect(number("PLUSMINUS.ABV", 1.05, 1.05, 0.001, 0.001)).toBeLessThan(0.3);
    for (const kind of ["APPARENT", "REAL"])
      expect(number("PLUSMINUS.ATTENUATION", 1.05, 1.05, 0.001, 0.001, kind)).toBeGreaterThan(1);
    for (const expected of [1.05, again(1.05), again(again(1.05))]) {
      expect(cell("CO2.LATENT", 1.05, expected, null, 1.05)).toBe(0);
      expect(cell("CO2.LATENT", 1.05, expected)).toBe(0);
    }
    expect(cells("SEASON", 1.05, 20, 1.05, 20)[0]?.slice(2)).toEqual([0, 0, 0]);
  });
});

test("a final gravity above the original is refused by every function that takes both", () => {
  for (const [name, ...more] of [
    ["ABV"],
    ["ABV", "QUOTIENT"],
    ["ABV", "DUTY-UK"],
    ["ABV", "RULE"],
    ["ABW"],
    ["ATTENUATION.APPARENT"],
    ["ATTENUATION.REAL"],
    ["EXTRACT.REAL"],
    ["ENERGY"],
    ["PLUSMINUS.ABV", 0.001, 0.001],
    ["PLUSMINUS.ATTENUATION", 0.001, 0.001],
    ["PLUSMINUS.ATTENUATION", 0.001, 0.001, "REAL"],
  ] as const)
    for (const final of [1.050_01, 1.06])
      expect(error(name, 1.05, final, ...more)).toMatch(
        /^#VALUE! The final gravity \(.*is above the original/,
      );
  expect(error("CO2.LATENT", 1.05, 1.01, null, 1.04)).toMatch(/is above the original/);
});

describe("ORIGINAL", () => {
  test("is never below the gravity of the beer", () => {
    // 1.048 is 11.91 °P and shows 12.39 °Bx before fermentation (factor 1.04); less than that and less gravity is no beer.
    for (const brix of [12, 12.2, 12.3, 12.38])
      expect(error("ORIGINAL", 1.048, brix)).toMatch(/^#VALUE! No beer has a gravity of 1\.048 and shows/);
    fc.assert(
      fc.property(gravity, fc.integer({ min: 0, max: 3000 }), (sg, n) => {
        const original = cell("ORIGINAL", sg, n / 100);
        if (typeof original === "number") expect(original).toBeGreaterThanOrEqual(sg - 1e-9);
      }),
    );
  });

  test("of wort that has not fermented is its gravity", () => {
    for (const sg of [1.03, 1.048, 1.09]) {
      const brix = 1.04 * number("CONVERT", sg, "SG", "P"); // 1.04: common practice, no source
      const original = number("ORIGINAL", sg, brix);
      expect(original).toBeCloseTo(sg, 8);
      expect(number("ABV", original, sg)).toBe(0);
    }
  });
});
