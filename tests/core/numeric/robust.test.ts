import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isNearMedian, median, outliers, scaledMad } from "../../../src/core/numeric/robust.js";

test("a median is the middle value, or between the middle two", () => {
  expect(median([3, 1, 2])).toBe(2);
  expect(median([4, 1, 3, 2])).toBe(2.5);
  expect(median([7])).toBe(7);
  expect(median([])).toBeNaN();
});

// The documentation of R's mad() gives 2 without the factor for both; with it, 1.4826 times that.
test("the spread of 1 to 9 is the same when the 9 is misread as 100", () => {
  expect(scaledMad([1, 2, 3, 4, 5, 6, 7, 8, 9])).toBeCloseTo(2 * 1.4826, 12);
  expect(scaledMad([1, 2, 3, 4, 5, 6, 7, 8, 100])).toBeCloseTo(2 * 1.4826, 12);
});

// Rousseeuw and Hubert, WIREs Data Mining Knowl. Discov. 1 (2011) 73 (from memory): five measurements, one with its decimal
// point slipped. They print a median of 6.28 and a scaled MAD of 0.044.
test("a slipped decimal point moves neither median nor scatter, and is an outlier", () => {
  const slipped = [6.27, 6.34, 6.25, 63.1, 6.28];
  expect(median(slipped)).toBe(6.28);
  expect(Math.abs(scaledMad(slipped) - 0.044)).toBeLessThan(0.001);
  expect(outliers(slipped, 1, 0)).toEqual([3]);
});

describe("outliers", () => {
  test("is nobody's guess among too few", () => {
    expect(outliers([0, 9], 1, 0.1)).toEqual([]);
    expect(outliers([0, 0, 9], 2, 0.1)).toEqual([]);
    expect(outliers([0, 0, 9], 1, 0.1)).toEqual([2]);
  });

  test("does not include differences finer than anyone reads", () => {
    expect(outliers([1, 1, 1, 1.3], 1, 0.1)).toEqual([]);
    expect(outliers([1, 1, 1, 1.4], 1, 0.1)).toEqual([3]);
  });

  test("is farther away than three and a half deviations, and not just as far", () => {
    expect(outliers([0, 0, 0, 7], 1, 2)).toEqual([]);
    expect(outliers([0, 0, 0, 7.01], 1, 2)).toEqual([3]);
  });

  test("is the same whatever the values are counted from", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 3, maxLength: 12 }),
        fc.integer({ min: -1000, max: 1000 }),
        (values, offset) => {
          const moved = values.map((value) => value + offset);
          expect(outliers(moved, 1, 0.5)).toEqual(outliers(values, 1, 0.5));
        },
      ),
    );
  });
});

test("a window's median is near its middle value just where sorting says so", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -6, max: 6 }), { minLength: 9, maxLength: 9 }),
      fc.integer({ min: 0, max: 4 }),
      fc.integer({ min: 0, max: 4 }),
      (values, reach, near) => {
        const off = Math.abs(median(values.slice(4 - reach, 5 + reach)) - (values[4] ?? NaN));
        expect(isNearMedian(values, 4, reach, near)).toBe(off <= near);
      },
    ),
    { numRuns: 500 },
  );
});
