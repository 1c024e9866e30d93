import { describe, expect, test } from "vitest";
import { course } from "../../src/functions/fermentation-course.js";
import { evaluate } from "../../src/functions/evaluate.js";
import { noInstruments } from "../../src/instruments/set.js";

// 1.050 falling towards 1.010 by a logistic curve (invented), every six hours.
const truth = (day: number): number => 1.05 - 0.04 / (1 + Math.exp(-1.5 * (day - 46_103)));
const days = Array.from({ length: 40 }, (_, i) => 46_100 + i / 4);
const column = (values: readonly unknown[]) => values.map((value) => [value]);
const log = (upTo: number, gravity = truth) => {
  const times = days.slice(0, upTo);
  return [column(times), column(times.map(gravity))];
};

describe("the log that a function looks at", () => {
  test("comes in the order of time, with the row of each reading", () => {
    const [times = [], gravities = []] = log(40);
    const found = course("FERMENT.RATE", [[...times].reverse(), [...gravities].reverse()]);
    expect(found?.readings.map(({ row }) => row)).toEqual(days.map((_, i) => 39 - i));
    for (const { time, gravity, smooth } of found?.readings ?? []) {
      expect(gravity).toBeCloseTo(truth(time), 12);
      // Half a point: what smoothing over four hours to either side may take off.
      expect(Math.abs(smooth - truth(time))).toBeLessThan(0.0005);
    }
  });

  test("has the stages and the spikes that the cells have", () => {
    const args = log(40, (day) => (day === 46_102.5 ? 1.09 : truth(day)));
    const found = course("FERMENT.STAGES", args);
    const table = evaluate("FERMENT.STAGES", args, noInstruments);
    expect(found?.stages.map(({ name, time, gravity }) => [name, time, gravity])).toEqual(table);
    expect(found?.readings.filter(({ setAside }) => setAside).map(({ time }) => time)).toEqual([46_102.5]);
  });

  test("goes on as the truth does, from the last reading", () => {
    const found = course("FERMENT.REACHES", log(18));
    expect(found?.ahead[0]?.time).toBe(days[17]);
    expect(found?.ahead.length).toBeGreaterThan(10);
    for (const { time, gravity } of found?.ahead ?? [])
      expect(Math.abs(gravity - truth(time))).toBeLessThan(0.001);
  });

  test("has no future where the log cannot carry one", () => {
    expect(course("FERMENT.REACHES", log(5))?.ahead).toEqual([]);
  });

  test("is none for other functions, and for what cannot be read", () => {
    expect(course("ABV", [1.048, 1.012])).toBeUndefined();
    expect(course("FERMENT.RATE", [[["soon"]], [[1.05]]])).toBeUndefined();
    expect(course("FERMENT.RATE", [[[""]], [[""]]])).toBeUndefined();
  });
});
