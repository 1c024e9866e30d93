import { describe, expect, test } from "vitest";
import { DENSE, levelled, scopeOf, type Scope } from "../../../src/core/log/level.js";
import type { Reading } from "../../../src/core/log/readings-log.js";

/** A reading every so many days, from a gravity for each place. */
const every = (gap: number, count: number, gravity: (i: number) => number): Reading[] =>
  Array.from({ length: count }, (_, i) => ({ time: i * gap, gravity: gravity(i) }));
const HOUR = 1 / 24;
const hourly: Scope = { width: 3, dense: true, least: 2 };
const daily: Scope = { width: 3, dense: false, least: 2 };

describe("how much of a log tells its level", () => {
  const scope = (gap: number, scatter = 0.25): Scope =>
    scopeOf(
      every(gap, 10, () => 50),
      scatter,
    );

  test("is three hours of readings, at least 3 of them and at most 12", () => {
    expect([1 / 8, HOUR, HOUR / 2, HOUR / 4, HOUR / 12, 1].map((gap) => scope(gap).width)).toEqual([
      3, 3, 6, 12, 12, 3,
    ]);
  });

  test("is dense up to a reading every six hours", () => {
    expect(DENSE).toBe(0.25);
    expect([HOUR, 0.25, 0.251, 1].map((gap) => scope(gap).dense)).toEqual([true, true, false, false]);
    expect(scopeOf([{ time: 1, gravity: 50 }], 1).dense).toBe(false);
  });

  test("takes a rise for one from two points on, or four standard deviations of two medians", () => {
    expect(scope(HOUR).least).toBe(2);
    // A median of n readings scatters by 1.2533/√n of one of them (common knowledge of normal samples).
    expect(scope(HOUR, 1).least / (4 * 1.2533 * Math.sqrt(2 / 3))).toBeCloseTo(1, 1);
    expect(scope(HOUR / 4, 1).least / (4 * 1.2533 * Math.sqrt(2 / 12))).toBeCloseTo(1, 1);
  });
});

describe("hour by hour", () => {
  test("a level that never rises is left alone", () => {
    const log = every(HOUR, 60, (i) => 50 - i / 2);
    expect(levelled(log, hourly)).toEqual({ readings: log, tilted: [], shifts: [], restarts: [] });
    const few = every(HOUR, 5, (i) => 10 + 10 * i);
    expect(levelled(few, hourly).readings).toEqual(few); // too few to tell a level
  });

  test("a rise by just the least is one, and by less is none", () => {
    const rise = (by: number) =>
      levelled(
        every(HOUR, 40, (i) => (i < 20 ? 20 : 20 + by)),
        hourly,
      ).shifts;
    expect(rise(2)).toEqual([{ from: 20 * HOUR, by: 2 }]);
    expect(rise(1.99)).toEqual([]);
  });

  test("a tilt that returns is taken out between the very readings where it began and ended", () => {
    for (const [from, to] of [
      [10, 14],
      [20, 40],
      [20, 57],
    ] as const) {
      const log = every(HOUR, 60, (i) => 30 - i / 10 + (i >= from && i < to ? 6 : 0));
      const { readings, tilted, shifts, restarts } = levelled(log, hourly);
      expect(tilted).toEqual(log.slice(from, to));
      expect(readings).toEqual([...log.slice(0, from), ...log.slice(to)]);
      expect([shifts, restarts]).toEqual([[], []]);
    }
  });

  test("so is one to the low side", () => {
    const log = every(HOUR, 60, (i) => 30 - i / 10 - (i >= 20 && i < 33 ? 6 : 0));
    const { tilted, shifts, restarts } = levelled(log, hourly);
    expect(tilted).toEqual(log.slice(20, 33));
    expect([shifts, restarts]).toEqual([[], []]);
  });

  test("one after the other, high and low", () => {
    const tilts = [
      [12, 20, 5],
      [30, 41, -4],
      [50, 62, 8],
    ] as const;
    const by = (i: number): number =>
      tilts.reduce((sum, [from, to, more]) => sum + (i >= from && i < to ? more : 0), 0);
    const log = every(HOUR, 80, (i) => 30 - i / 20 + by(i));
    const { readings, tilted } = levelled(log, hourly);
    expect(readings).toEqual(log.filter((_, i) => by(i) === 0));
    expect(tilted).toHaveLength(31);
  });

  test("a tilt that stays is put back by as much as the level rose", () => {
    const log = every(HOUR, 60, (i) => (i < 30 ? 20 : 26));
    const { readings, shifts, tilted, restarts } = levelled(log, hourly);
    expect(shifts).toEqual([{ from: 30 * HOUR, by: 6 }]);
    expect(readings).toEqual(every(HOUR, 60, () => 20));
    expect([tilted, restarts]).toEqual([[], []]);
  });

  test("what has gone by half again is sugar, and what has gone by less is a tilt", () => {
    const after = (left: number) =>
      levelled(
        every(HOUR, 80, (i) => (i < 20 ? 20 : 20 + Math.max(8 - (i - 20) / 4, left))),
        hourly,
      );
    expect(after(3)).toMatchObject({ restarts: [20 * HOUR], shifts: [] });
    expect(after(4.5)).toMatchObject({ restarts: [], shifts: [{ from: 20 * HOUR }] });
  });

  test("a low stretch that ends lower than it began is no tilt to the low side", () => {
    const log = every(HOUR, 60, (i) => (i < 20 ? 30 : i < 40 ? 20 : 26));
    expect(levelled(log, hourly)).toMatchObject({
      tilted: [],
      restarts: [],
      shifts: [{ from: 40 * HOUR, by: 6 }],
    });
  });

  test("a tilt for longer than a week is not looked for", () => {
    const tilt = (days: number) =>
      levelled(
        every(HOUR, 300, (i) => 20 + (i >= 20 && i < 20 + 24 * days ? 6 : 0)),
        hourly,
      ).tilted.length;
    expect(tilt(6.9)).toBe(Math.ceil(24 * 6.9));
    expect(tilt(7.5)).toBe(0);
  });

  test("more than twenty rises are more than any beer sees: the rest stays as it is", () => {
    const log = every(HOUR, 24 * 20, (i) => (i % 16 < 8 ? 20 : 26));
    const { readings, tilted } = levelled(log, hourly);
    expect(tilted).toHaveLength(20 * 8);
    expect(readings.filter(({ gravity }) => gravity === 26)).toHaveLength(10 * 8);
  });
});

describe("day by day", () => {
  const log = (...gravities: number[]): Reading[] => gravities.map((gravity, time) => ({ time, gravity }));

  test("what goes straight back after two days or more was a tilt", () => {
    const tilted = log(30, 22, 20, 20, 27, 27, 20, 19, 19, 19);
    expect(levelled(tilted, daily).tilted).toEqual(tilted.slice(4, 6));
  });

  test("what slopes back was sugar", () => {
    const sugared = log(30, 22, 20, 20, 28, 25, 22, 20, 19, 19);
    expect(levelled(sugared, daily)).toMatchObject({ tilted: [], restarts: [4], shifts: [] });
  });

  test("so was what slopes back within two days", () => {
    const fast = log(30, 22, 20, 20, 31, 27, 20, 19, 19, 19);
    expect(levelled(fast, daily)).toMatchObject({ tilted: [], restarts: [4], shifts: [] });
  });

  test("what goes back by less than half has stayed", () => {
    const half = log(30, 22, 20, 20, 28, 28, 24.5, 24.5, 24.5, 24.5);
    expect(levelled(half, daily)).toMatchObject({ tilted: [], restarts: [], shifts: [{ from: 4, by: 8 }] });
  });

  test("what stays is put back", () => {
    const stays = log(30, 22, 20, 20, 26, 26, 26, 26, 26);
    expect(levelled(stays, daily)).toMatchObject({ tilted: [], restarts: [], shifts: [{ from: 4, by: 6 }] });
  });
});
