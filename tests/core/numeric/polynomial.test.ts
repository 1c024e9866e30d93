import { expect, test } from "vitest";
import { polynomial, secantTo, slope } from "../../../src/core/numeric/polynomial.js";

test("a polynomial and its slope are what one works out by hand", () => {
  expect(polynomial([1, 2, 3], 2)).toBe(17); // 1 + 4 + 12
  expect(slope([1, 2, 3], 2)).toBe(14); // 2 + 12
  expect(polynomial([0, 0, 0, 1], -2)).toBe(-8);
  expect(slope([0, 0, 0, 1], -2)).toBe(12);
  expect([polynomial([7], 5), slope([7], 5), polynomial([], 5)]).toEqual([7, 0, 0]);
});

test("a parabola is sought from the very percentage at which it has a value, with its own slope there", () => {
  for (const share of [-0.04, 0, 0.12, 0.3]) {
    const of = [1, 0.4, 0.2] as const;
    const secant = secantTo(of, polynomial(of, share));
    expect(secant.x).toBeCloseTo(100 * share, 10);
    // One step of Newton's method from there: it must be that of the parabola's slope, by percent.
    secant.next(1e-3);
    expect(secant.x).toBeCloseTo(100 * share - 1e-3 / (slope(of, share) / 100), 10);
  }
});
