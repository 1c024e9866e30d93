import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { localLine } from "../../../src/core/log/local-line.js";
import type { Reading } from "../../../src/core/log/readings-log.js";

const readings = (...pairs: [time: number, gravity: number][]): Reading[] =>
  pairs.map(([time, gravity]) => ({ time, gravity }));

/** The least-squares line, as textbooks have it: from deviations of the means. */
function leastSquares(some: readonly Reading[], time: number): { gravity: number; slope: number } {
  const mean = (of: (each: Reading) => number): number =>
    some.reduce((sum, each) => sum + of(each), 0) / some.length;
  const [t, g] = [mean((each) => each.time), mean((each) => each.gravity)];
  const slope =
    mean((each) => (each.time - t) * (each.gravity - g)) / mean((each) => (each.time - t) ** 2) || 0;
  return { gravity: g + slope * (time - t), slope };
}

test("a line through the readings within reach is that of the textbook, both ends of the reach included", () => {
  const quarters = fc.uniqueArray(fc.integer({ min: 0, max: 60 }), { minLength: 2, maxLength: 25 });
  fc.assert(
    fc.property(
      quarters,
      fc.integer({ min: 0, max: 60 }),
      fc.integer({ min: 1, max: 8 }),
      (times, at, reach) => {
        const log = times
          .sort((a, b) => a - b)
          .map((quarter, i) => ({ time: 100 + quarter / 4, gravity: 50 - quarter / 3 + ((i * 7) % 5) }));
        const time = 100 + at / 4;
        const within = log.filter((each) => Math.abs(each.time - time) <= reach / 4);
        fc.pre(within.length >= 1);
        const expected = leastSquares(within, time);
        const { gravity, slope } = localLine(log, reach / 4, 1)(time);
        expect(gravity).toBeCloseTo(expected.gravity, 7);
        expect(slope).toBeCloseTo(expected.slope, 7);
      },
    ),
  );
});

describe("where too few readings are within reach", () => {
  const log = readings([0, 50], [1, 40], [2, 36], [4, 30]);
  const line = localLine(log, 0.25, 3);

  test("the next on either side are taken too", () => {
    expect(line(1).slope).toBeCloseTo(-7, 12); // one is within reach: 50, 40 and 36, a day apart
    expect(line(1).gravity).toBeCloseTo(42, 12);
    expect(line(3).slope).toBeCloseTo(-3, 12); // none is: 36 and 30, two days apart
    expect(line(3).gravity).toBeCloseTo(33, 12);
  });

  test("beside one that is not at this very time, only the far side is", () => {
    expect(line(1.2).slope).toBeCloseTo(-4, 12); // 40 at 1, before it; 36 at 2
    expect(line(1.8).slope).toBeCloseTo(-4, 12);
  });

  test("at either end there is one side only", () => {
    expect(line(0).slope).toBeCloseTo(-10, 12);
    expect(line(4).slope).toBeCloseTo(-3, 12);
  });
});

test("readings within a second have no slope", () => {
  const line = localLine(readings([5, 40], [5 + 5e-6, 44]), 1, 1);
  expect(line(5).slope).toBe(0);
  expect(line(5).gravity).toBeCloseTo(42, 9);
  expect(localLine(readings([5, 40], [5.001, 39]), 1, 1)(5).slope).toBeCloseTo(-1000, 3);
  expect(localLine(readings([5, 40]), 1, 3)(9)).toEqual({ gravity: 40, slope: 0 });
});
