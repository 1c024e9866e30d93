import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  beerByBoth,
  beerByExtracts,
  beerByRefraction,
  isSameExtract,
  extractGuess,
  tellBeer,
  type Beer,
} from "../../../src/core/beer/beer.js";
import { extractOfGravity, gravityOfExtract } from "../../../src/core/liquid/gravity.js";
import { fermentedTo } from "../../../src/core/liquid/mixture.js";
import { invert } from "../../../src/core/numeric/invert.js";
import { Refusal } from "../../../src/core/refusal.js";
import { brixRange, ethanolIndex, sucroseIndex } from "../../../src/core/liquid/refractive-index.js";
import { wortDensity20 } from "../../../src/core/liquid/wort-density.js";
import { secantSteps } from "../../support/secant-watch.js";
import { figure, reference, worst } from "../../support/reference.js";
import { reasonOf } from "../../support/refused.js";
import { told } from "../../support/told.js";

const P = (sg: number): number => extractOfGravity(sg);

// The same model evaluated by other code, on the true gravity scale of the sucrose formula; fed here by extract, so that
// the gravity scale does not enter. It prints 3 decimals; the density tables differ by up to 0.09 kg/m³ (0.02 °P).
describe("the computed comparison of methods", () => {
  const rows = reference("alcohol-beer-method-comparison");
  const beer = (row: (typeof rows)[number]): Beer => beerByExtracts(figure(row, "OE_P"), figure(row, "AE_P"));

  test("has its real extract within 0.006 °P", () => {
    expect(rows.length).toBe(4);
    expect(worst(rows, (row) => beer(row).realExtract - figure(row, "RE_P")).by).toBeLessThan(0.006);
  });

  test("has its alcohol within 0.003 % m/m and 0.004 % vol", () => {
    expect(worst(rows, (row) => beer(row).abw - figure(row, "ABW")).by).toBeLessThan(0.003);
    expect(worst(rows, (row) => beer(row).abv - figure(row, "abv_exact")).by).toBeLessThan(0.004);
  });
});

// Readings of a refractometer computed by other code. For k = 1.04 it scales the refraction of extract, we its reading, as
// the trade defines the factor (°Bx over °P); the two differ by up to 0.3 % of the reading. Densities differ by up to
// 0.09 kg/m³.
describe("the computed grid of refractometer readings", () => {
  const rows = reference("refractive-model-grid");

  for (const [k, brix, tolerance] of [
    [1, "beer_brix", 6e-5],
    [1.04, "beer_brix", 4e-4],
  ] as const)
    test(`finds the final gravity within ${tolerance} at a factor of ${k}`, () => {
      const some = rows.filter((row) => figure(row, "k") === k);
      expect(some.length).toBeGreaterThanOrEqual(16);
      const off = (row: (typeof rows)[number]): number => {
        const { gravity } = beerByRefraction(figure(row, "OE"), figure(row, brix), k);
        return gravity - gravityOfExtract(figure(row, "AE"));
      };
      expect(worst(some, off).by).toBeLessThan(tolerance);
    });

  test("finds an original that nobody wrote down within 0.02 °P at a factor of 1", () => {
    const some = rows.filter((row) => figure(row, "k") === 1);
    const off = (row: (typeof rows)[number]): number =>
      beerByBoth(figure(row, "AE"), figure(row, "beer_brix"), 1).originalExtract - figure(row, "OE");
    expect(worst(some, off).by).toBeLessThan(0.02);
  });
});

/** What a refractometer shows of a beer, put together from the parts, for there-and-back tests. */
function shownBy(beer: Beer, factor: number): number {
  // Composition per litre from the finished beer, independently of the solver.
  const density = 1.2 + beer.gravity * (998.2031 - 1.2);
  const extractPerLitre = (density * beer.realExtract) / 100;
  const strength = invert(
    (p) => (p / 100) * (1.2 + gravityOfExtract(p) * (998.2031 - 1.2)),
    { of: "strength", min: -4, max: 30, unit: "°P" },
    extractPerLitre,
    1e-9,
  );
  const index = sucroseIndex(factor * strength) + ethanolIndex((density * beer.abw) / 1e5);
  return invert(sucroseIndex, brixRange, index, 1e-13);
}

const fermentation = fc
  .record({
    original: fc.double({ min: 5, max: 26, noNaN: true }),
    gone: fc.double({ min: 0.05, max: 0.85, noNaN: true }),
  })
  .map(({ original, gone }) => ({ original, apparent: original * (1 - gone) }));

test("a beer known by both extracts is found again by its refraction, and by refraction and gravity", () => {
  fc.assert(
    fc.property(
      fermentation,
      fc.double({ min: 1, max: 1.05, noNaN: true }),
      ({ original, apparent }, factor) => {
        const beer = beerByExtracts(original, apparent);
        const brix = shownBy(beer, factor);
        const byRefraction = beerByRefraction(original, brix, factor);
        expect(byRefraction.gravity).toBeCloseTo(beer.gravity, 6);
        for (const quantity of ["originalExtract", "realExtract", "abw", "abv"] as const)
          expect(byRefraction[quantity]).toBeCloseTo(beer[quantity], 3);
        expect(beerByBoth(apparent, brix, factor).originalExtract).toBeCloseTo(original, 3);
      },
    ),
  );
});

test("wort in which nothing has fermented has no alcohol and its own extract", () => {
  for (const p of [0, 5, 12, 25]) {
    const { abv, realExtract } = beerByExtracts(p, p);
    expect(abv).toBeCloseTo(0, 6);
    expect(realExtract).toBeCloseTo(p, 6);
  }
  expect(beerByRefraction(12, 12.48, 1.04).gravity).toBeCloseTo(gravityOfExtract(12), 7);
});

test("the further a beer ferments, the more alcohol and the less extract it has", () => {
  for (let final = 1.048; final > 1.008; final -= 0.001) {
    const before = beerByExtracts(P(1.05), P(final));
    const after = beerByExtracts(P(1.05), P(final - 0.001));
    expect(after.abv).toBeGreaterThan(before.abv);
    expect(after.realExtract).toBeLessThan(before.realExtract);
    expect(after.realExtract).toBeGreaterThan(P(final - 0.001)); // alcohol hides extract
  }
});

test("a final gravity above the original is refused, with both as data", () => {
  expect.assertions(1);
  try {
    beerByExtracts(P(1.01), P(1.05));
  } catch (error) {
    expect((error as Refusal).reason).toMatchObject({ kind: "final-above-original" });
  }
});

test("more than everything cannot ferment", () => {
  expect(() => beerByExtracts(P(1.05), P(0.985))).toThrow(Refusal);
  expect(beerByExtracts(P(1.05), P(0.991)).abv).toBeGreaterThan(7); // dry, but possible
});

test("a reading above that of the wort is refused", () => {
  expect(() => beerByRefraction(12, 13.5, 1.04)).toThrow(Refusal);
});

test("readings that no beer shows are refused", () => {
  expect(() => beerByBoth(P(1.04), 5, 1.04)).toThrow(Refusal); // heavy, but bends light too little
  expect(() => beerByBoth(P(0.99), 29, 1.04)).toThrow(Refusal);
});

test("a refractometer reads wrong once there is alcohol (common practice, no source): too high", () => {
  const beer = beerByExtracts(P(1.048), P(1.012));
  expect(shownBy(beer, 1)).toBeGreaterThan(beer.realExtract);
  expect(shownBy(beer, 1)).toBeGreaterThan(P(1.012));
});

test("a beer that refracts no more than water cannot be, as alcohol alone refracts more", () => {
  expect(ethanolIndex(0.04)).toBeGreaterThan(ethanolIndex(0));
  expect(reasonOf(() => beerByRefraction(12, 0, 1.04))).toEqual({
    kind: "readings-disagree",
    gravity: gravityOfExtract(12),
    reading: 0,
  });
});

test("two readings that lead past the strongest wort of the tables are refused, and those just below are not", () => {
  expect(beerByBoth(10, 17.5, 1).originalExtract).toBeLessThan(30);
  const gravity = gravityOfExtract(10);
  expect(reasonOf(() => beerByBoth(10, 18, 1))).toEqual({ kind: "readings-disagree", gravity, reading: 18 });
});

test("two extracts that are one and the same but for the last digits are unfermented wort", () => {
  for (const apart of [-5e-7, 0, 5e-7])
    expect(beerByExtracts(12, 12 + apart)).toMatchObject({ abv: 0, abw: 0, realExtract: 12 });
  expect(beerByExtracts(12, 12 - 2e-6).abv).toBeGreaterThan(0);
  expect(reasonOf(() => beerByExtracts(12, 12 + 2e-6)).kind).toBe("final-above-original");
  expect(beerByBoth(12, 12 * 1.04, 1.04)).toMatchObject({ abv: 0, originalExtract: 12 });
});

test("extracts a millionth of a degree apart are the same, and no further", () => {
  expect(isSameExtract(0, 1e-6)).toBe(true);
  expect(isSameExtract(1e-6, 0)).toBe(true);
  expect(isSameExtract(0, 1.001e-6)).toBe(false);
});

test("the composition of a beer is found in four secant steps at most, of most beers in three", () => {
  for (let original = 2; original <= 30; original += 2)
    for (let attenuation = 5; attenuation <= 95; attenuation += 5) {
      const most = original <= 16 && attenuation <= 80 ? 3 : 4;
      const apparent = original * (1 - attenuation / 100);
      expect(secantSteps(() => beerByExtracts(original, apparent))).toBeLessThanOrEqual(most);
    }
});

test("what is left of a fermentation is sought from within 1 °P of where it is, 0.1 °P up to 10 °P", () => {
  const anywhere = { min: -0.5, max: 30 };
  for (let original = 1; original <= 30; original += 1)
    for (let attenuation = 0; attenuation <= 100; attenuation += 5) {
      const apparent = original * (1 - attenuation / 100);
      const guess = extractGuess(original, apparent);
      // As `solution` finds it, from the ends of the range.
      const found = fermentedTo(original, wortDensity20(apparent), anywhere, Infinity);
      expect(Math.abs(guess - (found?.extract ?? NaN))).toBeLessThan(original <= 10 ? 0.1 : 1);
    }
});

test("a refractometer that shows less than the hydrometer's wort would is refused: no alcohol does that", () => {
  const gravity = gravityOfExtract(12);
  expect(reasonOf(() => beerByBoth(12, 12.4, 1.04))).toEqual({
    kind: "readings-disagree",
    gravity,
    reading: 12.4,
  });
  expect(beerByBoth(12, 12.6, 1.04).originalExtract).toBeGreaterThan(12);
});

test("what is refused says of which readings", () => {
  expect(reasonOf(() => beerByExtracts(P(1.05), P(0.985)))).toEqual({
    kind: "final-too-low",
    original: expect.closeTo(1.05, 9) as number,
    final: expect.closeTo(0.985, 9) as number,
  });
  expect(reasonOf(() => beerByRefraction(12, 13.5, 1.04))).toEqual({
    kind: "refraction-above-original",
    reading: 13.5,
    original: gravityOfExtract(12),
  });
  // A little more than the strongest wort of the tables, and yet a hundredth of the alcohol that readings may scatter by.
  expect(reasonOf(() => beerByRefraction(30, 29.9, 0.99)).kind).toBe("refraction-above-original");
});

test("a beer holds what went in: its wort, less the carbon dioxide and the yeast that Balling found", () => {
  fc.assert(
    fc.property(fermentation, ({ original, apparent }) => {
      const { abw, realExtract, gravity } = beerByExtracts(original, apparent);
      expect((100 * (2.0665 * abw + realExtract)) / (100 + 1.0665 * abw)).toBeCloseTo(original, 9);
      expect(gravity).toBe(gravityOfExtract(apparent));
    }),
  );
});

test("what a beer is made of is told in the order asked for", () => {
  const beer = beerByExtracts(12, 3);
  const { steps } = told((to) => {
    tellBeer(beer, ["abv", "realExtract"], to);
  });
  expect(steps.map(({ value, unit }) => [value, unit])).toEqual([
    [beer.abv, "% vol"],
    [beer.realExtract, "°P"],
  ]);
});
