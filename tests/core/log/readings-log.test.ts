import { describe, expect, test } from "vitest";
import {
  countUntil,
  inOrder,
  readingScatter,
  medianGap,
  type Reading,
} from "../../../src/core/log/readings-log.js";
import { randomFrom } from "../../support/synthetic-log.js";

const readings = (...pairs: [time: number, gravity: number][]): Reading[] =>
  pairs.map(([time, gravity]) => ({ time, gravity }));

test("readings come in order of time, and several at one time are one, by their median", () => {
  const given = readings([3, 30], [1, 50], [2, 44], [2, 40], [2, 41], [4, 20], [4, 22]);
  expect(inOrder(given)).toEqual(readings([1, 50], [2, 41], [3, 30], [4, 21]));
  expect(given[0]).toEqual({ time: 3, gravity: 30 }); // what was handed over stays
  expect(inOrder([])).toEqual([]);
});

test("readings are counted up to a time, with those at it or without", () => {
  const log = readings([1, 50], [2, 40], [3, 30]);
  expect([0, 1, 2.5, 3, 4].map((time) => countUntil(log, time, true))).toEqual([0, 1, 2, 3, 3]);
  expect([0, 1, 2.5, 3, 4].map((time) => countUntil(log, time, false))).toEqual([0, 0, 2, 2, 3]);
});

test("the usual gap is the middle one, and there is none before the second reading", () => {
  expect(medianGap(readings([0, 1], [1, 1], [3, 1], [8, 1]))).toBe(2);
  expect(medianGap(readings([0, 1], [3, 1]))).toBe(3);
  for (const few of [readings(), readings([1, 50])]) expect(medianGap(few)).toBe(Infinity);
});

/** Normal scatter by Box and Muller, on a straight fall of 5 points a day. */
function noisy(gap: number, count: number, deviation: number, jitter = 0.3): Reading[] {
  const random = randomFrom(7);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  return Array.from({ length: count }, (_, i) => ({
    time: i * gap + jitter * gap * random(),
    gravity: 60 - 5 * i * gap + deviation * normal(),
  }));
}

describe("scatter of a reading", () => {
  test("is the standard deviation that it was made with, within 10 %", () => {
    for (const deviation of [0.5, 1, 1.3])
      expect(Math.abs(readingScatter(noisy(1 / 96, 4000, deviation)) / deviation - 1)).toBeLessThan(0.1);
  });

  test("is not moved by a few spikes", () => {
    const spiked = noisy(1 / 96, 4000, 1).map((each, i) =>
      i % 50 === 0 ? { ...each, gravity: each.gravity + 15 } : each,
    );
    expect(Math.abs(readingScatter(spiked) - 1)).toBeLessThan(0.15);
  });

  test("is at least a quarter of a point, at most a point and a half, and by hand half a point", () => {
    const straight = Array.from({ length: 20 }, (_, i) => ({ time: i ** 1.5 / 100, gravity: 50 - i ** 1.5 }));
    expect(readingScatter(straight)).toBe(0.25);
    expect(readingScatter(noisy(1 / 96, 400, 8))).toBe(1.5);
    expect(readingScatter(noisy(1, 400, 8))).toBe(0.5);
    expect(readingScatter(noisy(1 / 4, 400, 8, 0))).toBe(1.5); // four a day are not by hand
    for (const few of [[], readings([1, 50]), readings([1, 50], [2, 40])])
      expect(readingScatter(few)).toBe(0.25);
  });
});
