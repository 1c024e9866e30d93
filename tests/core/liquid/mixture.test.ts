import { describe, expect, test } from "vitest";
import { gravityOfExtract } from "../../../src/core/liquid/gravity.js";
import {
  density,
  fermentedTo,
  index,
  mixtureWith,
  original,
  originalOf,
  type Mixture,
  type MixtureReading,
} from "../../../src/core/liquid/mixture.js";
import { wortDensity20 } from "../../../src/core/liquid/wort-density.js";

const start = { p: 0.04, extract: 4 };

test("two conditions that are one and the same leave no mixture to be found", () => {
  expect(mixtureWith(density(1010), density(1012), start)).toBeUndefined();
});

test("a condition that no mixture meets is given up", () => {
  // x² + 1 has no real root: Newton's method wanders for ever.
  const impossible: MixtureReading = {
    of: ({ p }) => ({ value: p * p + 1, byAlcohol: 2 * p, byExtract: 0 }),
    target: 0,
    tolerance: 1e-8,
  };
  expect(mixtureWith(impossible, original(12), start)).toBeUndefined();
});

test("both conditions must be met, not only the one that the start meets already", () => {
  const extractIs = (target: number): MixtureReading => ({
    of: ({ extract }) => ({ value: extract, byAlcohol: 0, byExtract: 1 }),
    target,
    tolerance: 1e-9,
  });
  for (const conditions of [
    [extractIs(start.extract), density(1010)],
    [density(1010), extractIs(start.extract)],
  ] as const)
    expect(mixtureWith(...conditions, start)?.density.value).toBeCloseTo(1010, 8);
});

test("steps that go round in a circle are given up after twenty", () => {
  // Newton's method for x³ − 2x + 2 goes from 0 to 1 and back.
  let looks = 0;
  const circle: MixtureReading = {
    of: ({ p }) => {
      looks += 1;
      return { value: p ** 3 - 2 * p + 2, byAlcohol: 3 * p ** 2 - 2, byExtract: 0 };
    },
    target: 0,
    tolerance: 1e-8,
  };
  const any: MixtureReading = {
    of: ({ extract }) => ({ value: extract, byAlcohol: 0, byExtract: 1 }),
    target: 4,
    tolerance: 1e-8,
  };
  expect(mixtureWith(circle, any, { p: 0, extract: 4 })).toBeUndefined();
  expect(looks).toBe(20);
});

/** The mixture of two unknowns, which are conditions themselves. */
function mixtureOf(p: number, extract: number): Mixture {
  const found = mixtureWith(
    { of: (m) => ({ value: m.p, byAlcohol: 1, byExtract: 0 }), target: p, tolerance: 0 },
    { of: (m) => ({ value: m.extract, byAlcohol: 0, byExtract: 1 }), target: extract, tolerance: 0 },
    { p, extract },
  );
  if (!found) throw new Error("Newton's method left its own start");
  return found;
}

describe("the slopes of a mixture are what a small step either way makes", () => {
  const [dp, de] = [1e-5, 1e-3];
  const refraction = index(0, 1.04);
  for (const [p, extract] of [
    [0.001, 0],
    [0.04, 4],
    [0.12, -1],
    [0.08, 25],
  ] as const) {
    const here = (): Mixture => mixtureOf(p, extract);
    const byAlcohol = (of: (m: Mixture) => number): number =>
      (of(mixtureOf(p + dp, extract)) - of(mixtureOf(p - dp, extract))) / (2 * dp);
    const byExtract = (of: (m: Mixture) => number): number =>
      (of(mixtureOf(p, extract + de)) - of(mixtureOf(p, extract - de))) / (2 * de);
    const isNear = (slope: number, stepped: number): void => {
      expect(Math.abs(slope / stepped - 1)).toBeLessThan(1e-6);
    };

    test(`by alcohol at ${p} and ${extract} °P`, () => {
      isNear(
        here().density.byAlcohol,
        byAlcohol((m) => m.density.value),
      );
      isNear(
        here().alcoholSlope,
        byAlcohol((m) => m.alcohol),
      );
      isNear(
        originalOf(here()).byAlcohol,
        byAlcohol((m) => originalOf(m).value),
      );
      isNear(
        refraction.of(here()).byAlcohol,
        byAlcohol((m) => refraction.of(m).value),
      );
    });

    test(`by extract at ${p} and ${extract} °P`, () => {
      isNear(
        here().density.byExtract,
        byExtract((m) => m.density.value),
      );
      isNear(
        here().realExtractSlope,
        byExtract((m) => m.realExtract),
      );
      isNear(
        originalOf(here()).byExtract,
        byExtract((m) => originalOf(m).value),
      );
      isNear(
        refraction.of(here()).byExtract,
        byExtract((m) => refraction.of(m).value),
      );
    });
  }
});

test("a wort without alcohol has its own density, extract and original extract", () => {
  for (const extract of [0, 4, 12, 25]) {
    const wort = mixtureOf(0, extract);
    expect(wort.density.value).toBeCloseTo(wortDensity20(extract), 9);
    expect(wort.alcohol).toBe(0);
    expect(wort.realExtract).toBeCloseTo((extract / 100) * wortDensity20(extract), 9);
    expect(originalOf(wort).value).toBeCloseTo(extract, 9);
  }
});

test("what a fermentation has made of a wort is found from a near start, from a far one and from none", () => {
  const [strength, apparent] = [12, 2.5];
  const range = { min: -0.5, max: 30 };
  const found = [4.3, 11.9, -0.4, 50, NaN].map((from) =>
    fermentedTo(strength, wortDensity20(apparent), range, from),
  );
  for (const each of found) {
    // The same mixture by Newton's method in both unknowns.
    const both = mixtureWith(original(strength), density(wortDensity20(apparent)), start);
    expect(each?.p).toBeCloseTo(both?.p ?? NaN, 10);
    expect(each?.extract).toBeCloseTo(both?.extract ?? NaN, 8);
    expect(each?.alcohol).toBeCloseTo(both?.alcohol ?? NaN, 7);
    expect(each?.realExtract).toBeCloseTo(both?.realExtract ?? NaN, 7);
  }
});

test("no fermentation makes a wort lighter than all its extract gone would", () => {
  const range = { min: -0.5, max: 30 };
  expect(fermentedTo(12, 960, range, 4)).toBeUndefined();
  expect(gravityOfExtract(-4)).toBeGreaterThan(960 / 998.2); // nor does any reading say so
});
