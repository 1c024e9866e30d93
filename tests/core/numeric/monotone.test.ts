import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { longestFallingSubsequence, isotonicRegression } from "../../../src/core/numeric/monotone.js";
import { hampelOutliers } from "../../../src/core/numeric/robust.js";

const integers = fc.array(fc.integer({ min: 0, max: 12 }), { maxLength: 14 });
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

describe("isotonic regression", () => {
  test("pools what rises, as one does by hand", () => {
    // 3 and 4 rise: 3.5. Then 1 and 2: 1.5. Nothing else rises.
    expect(isotonicRegression([5, 3, 4, 1, 2, 0])).toEqual([5, 3.5, 3.5, 1.5, 1.5, 0]);
    // 1 and 4: 2.5, which is above the 2 before it; 2, 1 and 4 together: 7/3.
    expect(isotonicRegression([6, 2, 1, 4])).toEqual([6, 7 / 3, 7 / 3, 7 / 3]);
  });

  // Barlow, Bartholomew, Bremner and Brunk (1972), section 1.2: the solution as a minimum of maxima of means.
  test("is the least of the greatest means", () => {
    fc.assert(
      fc.property(integers, (values) => {
        const fitted = values.map((_, i) =>
          Math.min(
            ...values
              .slice(0, i + 1)
              .map((_, from) =>
                Math.max(...values.slice(i).map((_, more) => mean(values.slice(from, i + more + 1)))),
              ),
          ),
        );
        isotonicRegression(values).forEach((value, i) => {
          expect(value).toBeCloseTo(fitted[i] ?? NaN, 9);
        });
      }),
    );
  });
});

describe("Hampel's filter", () => {
  test("judges by hand as by machine", () => {
    // Around the 9, two to either side: 2 1 9 1 2, median 2, deviations 0 1 7 1 0 with the median 1. 7 is more than 3 · 1.4826.
    expect(hampelOutliers([1, 1, 2, 1, 9, 1, 2, 1, 1], 2, 0.4)).toEqual([4]);
    // With 6 it is 4, which is less.
    expect(hampelOutliers([1, 1, 2, 1, 6, 1, 2, 1, 1], 2, 0.4)).toEqual([]);
    // Where all others agree, the finest scatter decides: 3 · 0.5 is 1.5.
    expect(hampelOutliers([1, 1, 1, 2.5, 1, 1, 1], 3, 0.5)).toEqual([]);
    expect(hampelOutliers([1, 1, 1, 2.6, 1, 1, 1], 3, 0.5)).toEqual([3]);
  });

  test("finds nothing in a series that only falls, however it bends", () => {
    fc.assert(
      fc.property(integers, fc.integer({ min: 1, max: 5 }), (values, halfWidth) => {
        expect(
          hampelOutliers(
            values.sort((a, b) => b - a),
            halfWidth,
            0,
          ),
        ).toEqual([]);
      }),
    );
  });
});

describe("the longest falling run", () => {
  test("leaves out what contradicts the rest, above or below", () => {
    expect(longestFallingSubsequence([50, 48, 30, 60, 15, 11, 2, 10, 9], 0)).toEqual([0, 1, 2, 4, 5, 7, 8]);
    expect(longestFallingSubsequence([10, 11, 10, 11], 1)).toEqual([0, 1, 2, 3]);
    expect(longestFallingSubsequence([], 0)).toEqual([]);
  });

  test("keeps the earlier of two that contradict each other, where nothing else decides", () => {
    expect(longestFallingSubsequence([10, 12], 0)).toEqual([0]);
    expect(longestFallingSubsequence([10, 12, 5], 0)).toEqual([0, 2]);
  });

  test("is as long as trying all of them finds", () => {
    fc.assert(
      fc.property(integers, fc.integer({ min: 0, max: 3 }), (values, tolerance) => {
        const longest: number[] = [];
        values.forEach((value, i) => {
          const before = longest.filter((_, j) => value <= (values[j] ?? NaN) + tolerance);
          longest[i] = 1 + Math.max(0, ...before);
        });
        const run = longestFallingSubsequence(values, tolerance);
        expect(run).toHaveLength(Math.max(0, ...longest));
        run.slice(1).forEach((at, k) => {
          const before = run[k] ?? NaN;
          expect(at).toBeGreaterThan(before);
          expect(values[at]).toBeLessThanOrEqual((values[before] ?? NaN) + tolerance);
        });
      }),
    );
  });
});
