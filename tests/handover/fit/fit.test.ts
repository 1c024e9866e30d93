import { describe, expect, test } from "vitest";
import { chebyshevNodes, fittedPolynomial } from "../../../src/handover/fit/chebyshev-fit.js";
import {
  piecewiseLinear,
  horner,
  constant,
  input,
  gravityAsWritten,
} from "../../../src/handover/fit/expression.js";
import { fitOne, fitTwo } from "../../../src/handover/fit/smooth-fit.js";

describe("a polynomial", () => {
  test("of the degree of what it is fitted to is that", () => {
    const places = chebyshevNodes({ min: 1, max: 5 }, 9);
    const samples = places.flatMap((x) => places.map((y) => ({ x: [x, y], y: 2 - x * y + 3 * x * x * y })));
    const extents = [
      { min: 1, max: 5 },
      { min: 1, max: 5 },
    ];
    const fit = fittedPolynomial(samples, [input(0), input(1)], extents, 3, 1e-10);
    for (const [x, y] of [
      [1, 1],
      [2.5, 4],
      [5, 1.25],
    ] as const)
      expect(fit.at([x, y])).toBeCloseTo(2 - x * y + 3 * x * x * y, 7);
  });

  test("is written as it is worked out", () => {
    const nested = horner([constant(2), constant(0), constant(-1.5)], input(0));
    expect(nested.write(["B2"])).toBe("(((-1.5)*B2)*B2+2)");
    expect(nested.at([2])).toBe(-4);
    expect(gravityAsWritten(input(0)).write(["B2"])).toBe("(B2/(1+999*(B2>=500)))");
    expect([1046, 1.046].map((each) => gravityAsWritten(input(0)).at([each]))).toEqual([1.046, 1.046]);
  });
});

test("straight lines go through their corners, and on one to one outside", () => {
  const lines = piecewiseLinear(input(0), [1, 3], [2, 7]);
  expect([0, 1, 2, 3, 5].map((x) => lines.at([x]))).toEqual([1, 2, 4.5, 7, 9]);
});

describe("a fit", () => {
  test("keeps within the tolerance, and to where the function answers", () => {
    const fit = fitOne(
      (places) => places.map(([x = NaN]) => (x >= 0.25 ? Math.exp(x) : undefined)),
      { min: -1, max: 2 },
      { tolerance: 1e-5 },
    );
    for (const x of [0.25, 0.7, 1.3, 2])
      expect(Math.abs((fit?.result.at([x]) ?? NaN) - Math.exp(x))).toBeLessThan(1e-5);
    const holds = (x: number) => fit?.conditions.every((condition) => condition.holds([x]));
    expect([0.2499, 0.2501, 2, 2.001].map(holds)).toEqual([false, true, true, false]);
  });

  test("follows an edge round its corner", () => {
    // y from −x² to the lesser of 1 and 0.3 + x
    const inside = (x: number, y: number): boolean => y >= -x * x && y <= Math.min(1, 0.3 + x);
    const fit = fitTwo(
      (places) => places.map(([x = NaN, y = NaN]) => (inside(x, y) ? x * y : undefined)),
      { min: 0, max: 2 },
      { min: -5, max: 5 },
      { tolerance: 1e-4, edge: 1e-3 },
    );
    const holds = (x: number, y: number) => fit?.conditions.every((condition) => condition.holds([x, y]));
    for (const x of [0.05, 0.4, 0.69, 0.71, 1.2, 1.95]) {
      const [low, high] = [-x * x, Math.min(1, 0.3 + x)];
      expect([low - 2e-3, low + 2e-3, high - 2e-3, high + 2e-3].map((y) => holds(x, y))).toEqual([
        false,
        true,
        true,
        false,
      ]);
    }
  });

  test("is none where the tolerance cannot be reached", () => {
    const steps = (places: readonly (readonly number[])[]) => places.map(([x = NaN]) => Math.floor(x));
    expect(fitOne(steps, { min: 0, max: 9 }, { tolerance: 0.01 })).toBeUndefined();
  });
});
