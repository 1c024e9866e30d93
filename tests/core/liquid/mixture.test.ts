import { expect, test } from "vitest";
import { density, mixtureWith, original, type MixtureReading } from "../../../src/core/liquid/mixture.js";

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
