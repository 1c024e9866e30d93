import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { courseOf, reachedBy } from "../../../src/core/log/fermentation-forecast.js";
import type { Reading } from "../../../src/core/log/readings-log.js";
import { fallOf } from "../../../src/core/log/fermentation-rate.js";
import { passed, stagesOf } from "../../../src/core/log/fermentation-stages.js";
import { isSteady } from "../../../src/core/log/fermentation-steady.js";
import { fermentation, smoothAt, type FallingStretch } from "../../../src/core/log/fermentation.js";
import { near } from "../../support/near.js";
import { reasonOf } from "../../support/refused.js";

const HOUR = 1 / 24;

/** A reading every hour, from a gravity for each time. */
const hourly = (days: number, gravity: (t: number) => number): Reading[] =>
  Array.from({ length: Math.round(days / HOUR) + 1 }, (_, i) => ({
    time: i * HOUR,
    gravity: gravity(i * HOUR),
  }));

const daily = (...gravities: number[]): Reading[] =>
  gravities.map((gravity, time) => ({ time: time + 1, gravity }));

const reasons = (log: readonly Reading[]) =>
  fermentation(log).readings.map(({ setAside }) => setAside ?? "used");

/** From 50 to 10 points, half of it after three days. */
const usual = (t: number): number => 10 + 40 / (1 + Math.exp(2 * (t - 3)));

/** To 25 points under water, which no beer ends at. */
const deep = (t: number): number => usual(t) - 35;

describe("cleaning", () => {
  test("readings by hand that only fall stay as they are", () => {
    const log = daily(48, 46, 30, 18, 12, 10, 10);
    expect(fermentation(log).readings.map(({ smooth }) => smooth)).toEqual(log.map(({ gravity }) => gravity));
  });

  test("a slip by hand is set aside, also while gravity falls fast", () => {
    expect(reasons(daily(48, 46, 60, 18, 12, 10, 10))[2]).toBe("spike");
    expect(reasons(daily(48, 46, 30, 3, 18, 12, 10))[3]).toBe("spike");
  });

  test("order and repeated times make no difference", () => {
    const log = daily(48, 46, 30, 18, 12, 10, 10);
    fc.assert(
      fc.property(fc.shuffledSubarray([...log, ...log, ...log], { minLength: 21 }), (mixed) => {
        expect(fermentation(mixed)).toEqual(fermentation(log));
      }),
      { numRuns: 20 },
    );
  });

  test("foam for two hours is set aside, and what lies below it goes on", () => {
    const foam = (t: number): boolean => t > 2 && t < 2 + 2.5 * HOUR;
    const { readings } = fermentation(hourly(8, (t) => usual(t) + (foam(t) ? 15 : 0)));
    for (const { time, setAside, smooth } of readings) {
      expect([time, setAside]).toEqual([time, foam(time) ? "spike" : undefined]);
      expect(Math.abs(smooth - usual(time))).toBeLessThan(0.6);
    }
  });

  test("a tilt that returns is set aside, high or low", () => {
    for (const by of [6, -6]) {
      const tilted = (t: number): boolean => t > 6 && t < 7.5;
      const { readings, parts } = fermentation(hourly(10, (t) => usual(t) + (tilted(t) ? by : 0)));
      expect(parts).toHaveLength(1);
      for (const { time, setAside } of readings)
        expect([time, setAside]).toEqual([time, tilted(time) ? "tilt" : undefined]);
    }
  });

  test("a tilt that returns is known by hand as well, from two readings on", () => {
    const log = daily(50, 30, 14, 12, 12, 20, 20, 12, 11, 11);
    expect(reasons(log).flatMap((reason, i) => (reason === "used" ? [] : [[i, reason]]))).toEqual([
      [5, "tilt"],
      [6, "tilt"],
    ]);
  });

  test("a tilt that stays is taken off", () => {
    const { readings, shifts } = fermentation(hourly(12, (t) => usual(t) + (t > 6 ? 6 : 0)));
    expect(shifts).toHaveLength(1);
    expect(shifts[0]?.by).toBeCloseTo(6, 0);
    for (const { time, smooth } of readings) expect(Math.abs(smooth - usual(time))).toBeLessThan(0.6);
  });

  test("scatter is taken out by half at the least, where readings are dense", () => {
    const scatter = (i: number): number => 0.8 * Math.sin(2.4 * i);
    const log = hourly(10, usual).map((each, i) => ({ ...each, gravity: each.gravity + scatter(i) }));
    const squares = (off: (reading: { time: number; gravity: number; smooth: number }) => number): number =>
      fermentation(log).readings.reduce((sum, reading) => sum + off(reading) ** 2, 0);
    const left = squares(({ time, smooth }) => smooth - usual(time));
    expect(Math.sqrt(left / squares(({ time, gravity }) => gravity - usual(time)))).toBeLessThan(0.5);
  });

  test("sugar begins a new part", () => {
    const sugared = (t: number): number => usual(t) + (t > 6 ? 8 * Math.exp(-1.2 * (t - 6)) : 0);
    const { readings, parts, shifts } = fermentation(hourly(12, sugared));
    expect([parts.length, shifts.length]).toEqual([2, 0]);
    expect(parts[1]?.[0]?.time).toBeCloseTo(6 + HOUR, 6);
    for (const { time, smooth } of readings) expect(Math.abs(smooth - sugared(time))).toBeLessThan(0.6);
  });

  test("sugar may be added again and again", () => {
    const fed = (t: number, at: number): number => (t > at ? 8 * Math.exp(-1.2 * (t - at)) : 0);
    const { parts, shifts } = fermentation(hourly(18, (t) => usual(t) + fed(t, 6) + fed(t, 12)));
    expect(shifts).toEqual([]);
    expect(parts.map(([begins]) => Math.round((begins?.time ?? NaN) / HOUR))).toEqual([0, 145, 289]);
  });

  test("takes any numbers, and never rises within a part", () => {
    const reading = fc.record({
      time: fc.double({ min: 0, max: 30, noNaN: true }),
      gravity: fc.double({ min: -90, max: 190, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(reading, { minLength: 1, maxLength: 60 }), (log) => {
        const cleaned = fermentation(log);
        for (const { smooth } of cleaned.readings) expect(Number.isFinite(smooth)).toBe(true);
        for (const part of cleaned.parts)
          part.slice(1).forEach(({ gravity }, i) => {
            expect(gravity).toBeLessThanOrEqual(part[i]?.gravity ?? NaN);
          });
      }),
    );
  });
});

describe("the rate", () => {
  test("of a straight fall is its slope, and ends at the ends of the log", () => {
    const log = fermentation(daily(50, 45, 40, 35));
    for (const at of [1, 2, 2.5, 4, undefined]) expect(fallOf(log)(at).rate).toBeCloseTo(5, 9);
    expect(fallOf(log)(2.5).gravity).toBeCloseTo(42.5, 9);
    expect(reasonOf(() => fallOf(log)(4.1))).toEqual({ kind: "outside-log", at: 4.1, first: 1, last: 4 });
    expect(reasonOf(() => fallOf(fermentation(daily(50)))())).toMatchObject({ kind: "too-few-readings" });
  });

  test("before a first reading that was set aside is that of the next", () => {
    const log = fermentation(daily(10, 48, 46, 30, 18));
    expect(log.readings[0]?.setAside).toBe("spike");
    expect(fallOf(log)(1)).toEqual({ time: 1, gravity: 48, rate: near(2, 9) });
  });

  test("is the derivative of a curve", () => {
    const log = fermentation(hourly(8, usual));
    const e = Math.exp(2 * (2.5 - 3));
    // Half a day to either side bends by less than a point.
    expect(Math.abs(fallOf(log)(2.5).rate - (80 * e) / (1 + e) ** 2)).toBeLessThan(1);
  });
});

describe("standing still", () => {
  test("takes three days within a point, counted from a reading", () => {
    expect(isSteady(fermentation(daily(20, 12, 11, 10, 10, 10)))).toBe(true);
    expect(isSteady(fermentation(daily(20, 12, 11.2, 10, 10, 10)))).toBe(false);
    expect(isSteady(fermentation(daily(20, 10, 10, 10)))).toBe(false);
    expect(isSteady(fermentation(daily(10, 10, 10)))).toBe(false);
    expect(isSteady(fermentation(daily(20, 10, 10, 10, 10, 10)), { days: 4, tolerance: 0.1 })).toBe(true);
  });

  test("is not what an unexplained rise or a drift upwards shows", () => {
    expect(isSteady(fermentation(hourly(12, usual)))).toBe(true);
    expect(isSteady(fermentation(hourly(12, (t) => usual(t) + (t > 11 ? 5 : 0))))).toBe(false);
    expect(isSteady(fermentation(hourly(12, (t) => usual(t) + (t > 11.95 ? 5 : 0))))).toBe(false);
    expect(isSteady(fermentation(hourly(12, (t) => usual(t) + Math.max(0, t - 8) * 2)))).toBe(false);
  });

  test("is not what a slip by hand leaves, since it may be sugar", () => {
    expect(isSteady(fermentation(daily(20, 12, 10, 10, 18, 10, 10)))).toBe(false);
    expect(isSteady(fermentation(daily(20, 12, 10, 18, 10, 10, 10, 10, 10)))).toBe(true);
  });

  test("for no time, or within a whole beer, is refused", () => {
    const log = fermentation(daily(10, 10));
    expect(reasonOf(() => isSteady(log, { days: 0.1, tolerance: 1 }))).toMatchObject({
      kind: "out-of-range",
    });
    expect(reasonOf(() => isSteady(log, { days: 3, tolerance: 50 }))).toMatchObject({
      kind: "out-of-range",
    });
  });
});

describe("stages", () => {
  test("by hand", () => {
    // Falls per day: 2, 16, 14, 6, 3, 0, 0, 0. Rates are slopes over the readings on either side: 9 on day 2, 15 on day 3 and 10
    // on day 4, then 4.5 on day 5.
    const stages = stagesOf(fermentation(daily(52, 50, 34, 20, 14, 11, 11, 11, 11)));
    expect(stages.started).toEqual({ time: 2, gravity: 50 });
    expect(stages.fastest).toEqual({ time: 3, gravity: 34 });
    expect(stages.slowing?.time).toBeCloseTo(4 + (10 - 7.5) / (10 - 4.5), 9);
    expect(stages.steady).toEqual({ time: 6, gravity: 11 });
  });

  test("are not there before their time", () => {
    const none = { started: undefined, fastest: undefined, slowing: undefined, steady: undefined };
    expect(stagesOf(fermentation(daily(50, 49, 48.5)))).toStrictEqual(none);
    expect(stagesOf(fermentation(daily(50, 48, 30)))).toMatchObject({
      slowing: undefined,
      steady: undefined,
    });
    const slowing = stagesOf(fermentation(daily(52, 50, 34, 20, 14, 11, 9)));
    expect(slowing.slowing?.time).toBeGreaterThan(4);
    expect(slowing.steady).toBeUndefined();
  });
});

describe("passing a gravity", () => {
  const part = (...readings: [time: number, gravity: number][]): FallingStretch =>
    readings.map(([time, gravity]) => ({ time, gravity, read: gravity }));

  test("is straight from the end of one part to the beginning of the next, if it was there", () => {
    const parts = [part([0, 30], [2, 20]), part([4, 10], [6, 9])];
    expect(passed(parts, 15)).toEqual({ time: 3, gravity: 15 });
    expect(passed(parts, 25)).toEqual({ time: 1, gravity: 25 });
  });

  test("is still to come, or was before the log", () => {
    expect(passed([part([0, 30], [2, 20])], 15)).toBeUndefined();
    expect(passed([part([0, 30], [2, 20])], 35)).toBeUndefined();
  });
});

describe("reaching a gravity", () => {
  test("is straight between readings, and the last time counts", () => {
    expect(reachedBy(fermentation(daily(48, 30, 20, 10)))(15)).toEqual({
      time: 3.5,
      standardError: undefined,
    });
    const sugared = (t: number): number => usual(t) + (t > 6 ? 8 * Math.exp(-1.2 * (t - 6)) : 0);
    // 8·exp(−1.2·s) comes down to 2 points at s = ln(4)/1.2.
    expect(reachedBy(fermentation(hourly(12, sugared)))(12).time).toBeCloseTo(6 + Math.log(4) / 1.2, 1);
  });

  test("is foretold from a curve that has begun to slow", () => {
    const log = fermentation(hourly(4.5, usual));
    // 40/(1 + exp(2·(t − 3))) is 1 where exp(2·(t − 3)) is 39.
    const { time, standardError } = reachedBy(log)(11);
    expect(Math.abs(time - (3 + Math.log(39) / 2))).toBeLessThan(0.2);
    expect(standardError).toBeGreaterThan(0);
  });

  test("is refused where the log cannot say", () => {
    const refused = (log: readonly Reading[], target: number) =>
      reasonOf(() => reachedBy(fermentation(log))(target));
    expect(refused(daily(20, 15, 12), 30)).toEqual({
      kind: "below-from-the-start",
      begins: 1.02,
      target: 1.03,
    });
    expect(refused(daily(50, 40, 30), 20)).toEqual({ kind: "too-few-readings", given: 3, needed: 6 });
    expect(refused(daily(50, 50, 49, 49, 48, 48, 47), 20)).toMatchObject({ kind: "no-fall-yet" });
    expect(refused(hourly(2.4, usual), 20)).toMatchObject({ kind: "not-slowing" });
    expect(refused(hourly(9, usual), 8)).toMatchObject({ kind: "levels-off-above", target: 1.008 });
    expect(refused(hourly(4, usual), 10.01)).toMatchObject({ kind: "forecast-vague" });
    expect(refused(hourly(6, deep), -28)).toEqual({ kind: "no-curve" });
  });
});

describe("the course that is foretold", () => {
  test("begins at the last reading, goes on as the curve does, and ends where it levels off", () => {
    const course = courseOf(fermentation(hourly(5, usual)));
    expect(course[0]?.time).toBeCloseTo(5, 9);
    for (const { time, gravity } of course) expect(Math.abs(gravity - usual(time))).toBeLessThan(0.2);
    expect(course.at(-1)?.gravity).toBeLessThan(10.4);
  });

  test("is refused where the log cannot carry it", () => {
    const refused = (log: readonly Reading[]) => reasonOf(() => courseOf(fermentation(log)));
    expect(refused(daily(50, 40, 30))).toEqual({ kind: "too-few-readings", given: 3, needed: 6 });
    expect(refused(hourly(2.4, usual))).toEqual({ kind: "not-slowing" });
    expect(refused(hourly(6, deep))).toEqual({ kind: "no-curve" });
  });
});

describe("at the edges of what stands still", () => {
  const stands = (...gravities: number[]): boolean => isSteady(fermentation(daily(...gravities)));

  test("a fall by just the tolerance is still, and by more is not", () => {
    expect(isSteady(fermentation(daily(20, 10.5, 10.5, 10, 10)), { days: 3, tolerance: 0.5 })).toBe(true);
    expect(isSteady(fermentation(daily(20, 10.6, 10.5, 10, 10)), { days: 3, tolerance: 0.5 })).toBe(false);
  });

  test("the limits of days and tolerance are allowed themselves", () => {
    const log = fermentation(daily(20, 10, 10, 10));
    for (const still of [
      { days: 0.5, tolerance: 0.1 },
      { days: 60, tolerance: 10 },
    ])
      expect(isSteady(log, still)).toBe(still.days < 1);
  });

  test("readings that rise by no more than scatter and tolerance are no drift", () => {
    // By hand readings scatter by at least a quarter of a point: a point and a half is the most that is none.
    expect(stands(20, 12, 10, 10, 10.5, 11, 11.4)).toBe(true);
    expect(stands(20, 12, 10, 10, 10.9, 11.8, 12.7)).toBe(false);
  });

  test("a last reading that is set aside is not still, however still it was before", () => {
    const log = fermentation(hourly(12, (t) => usual(t) + (t > 11.99 ? 5 : 0)));
    expect(log.readings.at(-1)?.setAside).toBe("spike");
    expect(isSteady(log)).toBe(false);
  });

  test("a tilt that has stayed for longer than that does not count", () => {
    const tilted = (days: number) => fermentation(hourly(days, (t) => usual(t) + (t > 6 ? 5 : 0)));
    expect(tilted(16).shifts).toHaveLength(1);
    expect(isSteady(tilted(16))).toBe(true);
    expect(isSteady(tilted(8.5))).toBe(false);
  });

  test("foam does not count where readings are dense, up to six hours apart", () => {
    for (const gap of [HOUR, 6 * HOUR]) {
      const count = Math.round(16 / gap);
      const log = Array.from({ length: count + 1 }, (_, i) => {
        const time = i * gap;
        return { time, gravity: usual(time) + (i === count - 6 ? 12 : 0) };
      });
      expect(fermentation(log).readings.at(-7)?.setAside).toBe("spike");
      expect(isSteady(fermentation(log))).toBe(true);
    }
  });

  test("a rise in the last day alone is a drift", () => {
    const rising = (t: number): number => usual(t) + Math.max(0, Math.min(1.8, 7 * (t - 11)));
    const log = fermentation(hourly(12, rising));
    expect(log.shifts).toEqual([]);
    expect(isSteady(log)).toBe(false);
  });

  test("a slip before the three days does not count, and one in them does", () => {
    expect(stands(20, 12, 10, 18, 10, 10, 10, 10)).toBe(true);
    expect(stands(20, 12, 10, 10, 18, 10, 10, 10)).toBe(true);
    expect(stands(20, 12, 10, 10, 10, 18, 10, 10)).toBe(false);
  });
});

describe("stages at their edges", () => {
  test("two points make a start, and no less does", () => {
    expect(stagesOf(fermentation(daily(50, 49, 48))).started).toEqual({ time: 3, gravity: 48 });
    expect(stagesOf(fermentation(daily(50, 49, 48.1))).started).toBeUndefined();
  });

  test("a fall that halves and stays at half has slowed where it last was at half", () => {
    const { slowing } = stagesOf(fermentation(daily(60, 50, 40, 30, 25, 20, 19, 18)));
    // Slopes over three readings: 10 up to day 3, 7.5 on day 4, 5 on day 5, then 3 on day 6.
    expect(slowing).toEqual({ time: near(5, 9), gravity: near(25, 9) });
  });

  test("a start may come with the sugar that was added before it", () => {
    // Nothing for a day, then eight points more, which ferment with the rest.
    const late = (t: number): number => (t < 1 ? 50 : usual(t - 1) + 8);
    const { parts } = fermentation(hourly(10, late));
    expect(parts).toHaveLength(2);
    const { started } = stagesOf(fermentation(hourly(10, late)));
    expect(started?.gravity).toBeCloseTo(48, 9);
    // 40/(1 + exp(2·(t − 4))) is 30 where exp(2·(t − 4)) is a third.
    expect(Math.abs((started?.time ?? NaN) - (4 - Math.log(3) / 2))).toBeLessThan(0.1);
  });

  test("days of waiting before a fermentation are not its end", () => {
    const waited = stagesOf(fermentation(daily(50, 50, 50, 50, 50, 40, 25, 15, 12, 11, 11, 11, 11)));
    expect(waited.steady).toEqual({ time: 9, gravity: 12 }); // a point above the 11 of day 12
  });

  test("a fall of just a point in three days is steady", () => {
    const { steady } = stagesOf(fermentation(daily(52, 50, 34, 20, 14, 11, 10.5, 10.2, 10, 10)));
    expect(steady).toEqual({ time: 6, gravity: 11 });
  });

  test("after sugar, the fastest may be of either part, and steady only of the last", () => {
    const sugared = (by: number) =>
      stagesOf(fermentation(hourly(16, (t) => usual(t) + (t > 8 ? by * Math.exp(-1.2 * (t - 8)) : 0))));
    expect(sugared(8).fastest?.time).toBeCloseTo(3, 0);
    expect(sugared(40).fastest?.time).toBeGreaterThan(8);
    for (const by of [8, 40]) expect(sugared(by).steady?.time).toBeGreaterThan(9);
  });
});

describe("the rate around sugar", () => {
  const log = fermentation(hourly(12, (t) => usual(t) + (t > 6 ? 8 * Math.exp(-1.2 * (t - 6)) : 0)));

  test("belongs to the part that the time is in", () => {
    expect(log.parts).toHaveLength(2);
    expect(fallOf(log)(5.9).rate).toBeLessThan(1);
    expect(fallOf(log)(6 + 2 * HOUR).rate).toBeGreaterThan(4); // 9.6 at once, less over half a day
    // Between the last reading of the first part and the first of the second nothing is known but the first.
    expect(fallOf(log)(6 + HOUR / 2).gravity).toBeCloseTo(usual(6), 0);
    expect(fallOf(log)().rate).toBe(fallOf(log)(12).rate);
  });

  test("at the first reading after the sugar is that of the new part", () => {
    const begins = log.parts[1]?.[0]?.time ?? NaN;
    expect(fallOf(log)(begins).rate).toBeGreaterThan(4);
  });

  test("is not told before the log, and takes two readings", () => {
    expect(reasonOf(() => fallOf(log)(-0.01))).toMatchObject({ kind: "outside-log", at: -0.01, first: 0 });
    expect(fallOf(fermentation(daily(50, 45)))().rate).toBeCloseTo(5, 9);
  });

  test("of a level stretch is 0, and never less", () => {
    const level = fermentation(daily(10, 10, 10, 10));
    for (const at of [1, 2.5, 4]) expect(fallOf(level)(at).rate).toBe(0);
  });
});

describe("a forecast at its edges", () => {
  const reach = (log: readonly Reading[], target: number) => reachedBy(fermentation(log))(target);

  test("six readings carry one and five points of fall do", () => {
    const six = [0, 1, 2, 3, 4, 5].map((i) => ({ time: 1 + i * 0.7, gravity: usual(1 + i * 0.7) }));
    expect(reasonOf(() => reach(six.slice(0, 5), 11))).toMatchObject({ kind: "too-few-readings", given: 5 });
    // 40/(1 + exp(2·(t − 3))) is 1 where exp(2·(t − 3)) is 39.
    expect(reach(six, 11).time).toBeCloseTo(3 + Math.log(39) / 2, 6);
    const thin = (t: number): number => 10 + (usual(t) - 10) / 8; // falls by five points in all
    expect(reasonOf(() => reach(hourly(4, thin), 10))).toMatchObject({ kind: "no-fall-yet", needed: 5 });
  });

  test("what the last readings are just above is due at once", () => {
    const { time } = reach(hourly(5, usual), usual(5) - 0.05);
    expect(time).toBeGreaterThanOrEqual(5);
    expect(time).toBeLessThan(5.2);
  });

  test("is as far ahead as the log is long at the most", () => {
    const slow = (t: number): number => 10 + 40 * Math.exp(-t / 4);
    const far = reasonOf(() => reach(hourly(3, slow), 12));
    expect(far).toMatchObject({ kind: "forecast-vague" });
  });

  test("is less sure the less there is to go by", () => {
    const early =
      reach(
        hourly(4, (t) => usual(t) + 0.4 * Math.sin(40 * t)),
        12,
      ).standardError ?? NaN;
    const late =
      reach(
        hourly(4.6, (t) => usual(t) + 0.4 * Math.sin(40 * t)),
        11.4,
      ).standardError ?? NaN;
    expect(late).toBeLessThan(early);
  });

  test("counts days on from the date with which the log begins", () => {
    const dated = hourly(4.5, usual).map((each) => ({ ...each, time: each.time + 46_000 }));
    expect(reach(dated, 11).time - 46_000).toBeCloseTo(reach(hourly(4.5, usual), 11).time, 4);
    const course = courseOf(fermentation(dated));
    expect(course[0]?.time).toBeCloseTo(46_004.5, 6);
    expect(course.at(-1)?.time).toBeLessThanOrEqual(46_009.000001);
  });
});

describe("a course", () => {
  test("goes on for as long as the log was, in sixty steps, where it has not levelled off before", () => {
    const course = courseOf(fermentation(hourly(5, (t) => 10 + 40 / (1 + Math.exp(0.7 * (t - 3))))));
    expect(course).toHaveLength(61);
    expect(course.at(-1)?.time).toBeCloseTo(10, 9);
    expect((course[1]?.time ?? NaN) - (course[0]?.time ?? NaN)).toBeCloseTo(5 / 60, 9);
  });
});

describe("gravities between and outside readings", () => {
  const part: FallingStretch = [
    { time: 1, gravity: 40, read: 41 },
    { time: 2, gravity: 30, read: 30 },
    { time: 4, gravity: 20, read: 19 },
  ];

  test("are straight in between and stay at both ends", () => {
    expect([0, 1, 1.5, 2, 3, 4, 9].map((time) => smoothAt(part, time))).toEqual([40, 40, 35, 30, 25, 20, 20]);
  });
});
