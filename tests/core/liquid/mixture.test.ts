import { expect, test } from "vitest";
import {
  density,
  fermentedTo,
  mixtureWith,
  original,
  type MixtureReading,
} from "../../../src/core/liquid/mixture.js";

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

test("a far guess finds the same mixture as a near one", () => {
  const range = { min: -0.5, max: 30 };
  for (const guess of [-50, -0.5, 30, 400, NaN]) {
    const found = fermentedTo(12, 1006, range, guess);
    expect(found?.extract).toBeCloseTo(fermentedTo(12, 1006, range, 3.5)?.extract ?? NaN, 9);
  }
});
