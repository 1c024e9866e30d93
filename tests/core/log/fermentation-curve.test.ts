import { describe, expect, test } from "vitest";
import { fermentationCurves, finalOf } from "../../../src/core/log/fermentation-curve.js";
import type { FallingStretch } from "../../../src/core/log/fermentation.js";

/** From 50 to 10 points, 1.5 a day at its centre after three days: the curves of Verhulst and of Gompertz. */
const verhulst = (t: number): number => 10 + 40 / (1 + Math.exp(1.5 * (t - 3)));
const gompertz = (t: number): number => 50 - 40 * Math.exp(-Math.exp(-1.5 * (t - 3)));

/** Readings every so many days; a log may begin at any date. */
const logged = (gravity: (t: number) => number, days: number, gap: number, begin = 46_000): FallingStretch =>
  Array.from({ length: Math.round(days / gap) + 1 }, (_, i) => ({
    time: begin + i * gap,
    gravity: gravity(i * gap),
    read: gravity(i * gap),
  }));

describe.each([
  ["logistic", verhulst],
  ["Gompertz", gompertz],
] as const)("readings that follow the %s curve", (name, truth) => {
  test.each([
    [8, 1 / 24],
    [4.5, 1 / 24],
    [8, 1 / 2],
    [8, 1 / 96],
  ])("for %f days, one every %f, are known as such, with its numbers", (days, gap) => {
    const [best, other] = fermentationCurves(logged(truth, days, gap));
    expect(best?.family.name).toBe(name);
    expect(best?.weight).toBeGreaterThan(0.5);
    expect((best?.weight ?? NaN) + (other?.weight ?? 0)).toBeCloseTo(1, 9);
    [50, 40, 1.5, 3].forEach((expected, i) => {
      // Means of a stretch of time are not the curve in its middle, and less so where it bends.
      expect(Math.abs((best?.parameters[i] ?? NaN) / expected - 1)).toBeLessThan(0.02);
    });
    expect(best?.final).toBeCloseTo(10, 0);
    expect(best?.final).toBe(finalOf(best?.parameters ?? []));
  });

  test("has its times and gravities belong together", () => {
    const [best] = fermentationCurves(logged(truth, 8, 1 / 24));
    if (!best) throw new Error("no curve");
    for (const t of [1, 2.5, 3, 4, 6])
      expect(best.family.timeOf(best.at(t), best.parameters)).toBeCloseTo(t, 6);
    expect(best.family.timeOf(best.final - 1, best.parameters)).toBeNaN();
    expect(best.family.timeOf(60, best.parameters)).toBeNaN();
    expect(best.at(3)).toBeCloseTo(50 - 40 * best.family.fallenAtCentre, 0);
  });
});

test("a dense tail of a week weighs no more than it is long", () => {
  const sparse = logged(verhulst, 4, 1 / 4);
  const tail = logged(verhulst, 11, 1 / 96).filter(({ time }) => time > 46_004);
  const [best] = fermentationCurves([...sparse, ...tail]);
  expect(best?.family.name).toBe("logistic");
  expect(best?.final).toBeCloseTo(10, 1);
});

test("how a fermentation starts says little of how it ends: the first fifth of the fall is left out", () => {
  // Two slow days that no such curve has, and then the curve.
  const late = (t: number): number => (t < 2 ? 50 - t : verhulst(t - 1.2));
  const [best] = fermentationCurves(logged(late, 8, 1 / 24));
  expect(best?.final).toBeCloseTo(10, 0);
  expect(best?.residualSumOfSquares).toBeLessThan(5);
});

test("neither a rise nor a fall far under water is the course of a fermentation", () => {
  expect(fermentationCurves(logged((t) => verhulst(t) - 35, 6, 1 / 24))).toEqual([]);
  expect(fermentationCurves(logged((t) => verhulst(t) - 24, 8, 1 / 24))[0]?.final).toBeCloseTo(-14, 0);
});
