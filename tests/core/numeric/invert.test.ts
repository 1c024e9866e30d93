import { describe, expect, test } from "vitest";
import { invert, solution } from "../../../src/core/numeric/invert.js";
import { reasonOf } from "../../support/refused.js";

const range = { of: "x", min: 0, max: 10, unit: "" };

/** A curve that knows where it was looked at. */
function watched(f: (x: number) => number): { f: (x: number) => number; at: number[] } {
  const at: number[] = [];
  const watching = (x: number): number => {
    at.push(x);
    return f(x);
  };
  return { f: watching, at };
}

test("a nearly straight curve takes seven looks at most, the two at the ends among them", () => {
  const { f, at } = watched((x) => x + 0.002 * x * x);
  for (const x of [0.1, 3, 7.7]) {
    at.length = 0;
    expect(invert(f, range, x + 0.002 * x * x, 1e-12)).toBeCloseTo(x, 11);
    expect(at.length).toBeLessThanOrEqual(7);
  }
});

test("an awkward curve is looked at within its range alone, and not for ever", () => {
  for (const curve of [
    (x: number) => x ** 9,
    (x: number) => Math.expm1(3 * x),
    (x: number) => Math.log(x + 0.001),
    (x: number) => -Math.log(10.001 - x),
    (x: number) => Math.atan(50 * (x - 7.3)),
    (x: number) => Math.cbrt(x - 2),
    (x: number) => Math.max(0, x - 9.5),
  ]) {
    const { f, at } = watched(curve);
    for (const x of [1, 4.2, 9.9]) {
      at.length = 0;
      const found = invert(f, range, curve(x), 1e-9);
      expect(Math.abs(curve(found) - curve(x))).toBeLessThanOrEqual(1e-9);
      expect(at.length).toBeLessThanOrEqual(100);
      expect(Math.min(...at)).toBe(0);
      expect(Math.max(...at)).toBe(10);
    }
  }
});

describe("a target", () => {
  test("just past an end is met there, within the tolerance", () => {
    const up = (x: number): number => x;
    expect(solution(up, range, -0.001, 0.001)).toBeCloseTo(0, 2);
    expect(solution(up, range, 10.001, 0.001)).toBeCloseTo(10, 2);
    expect(solution(up, range, -0.0011, 0.001)).toBeUndefined();
    expect(solution(up, range, 10.0011, 0.001)).toBeUndefined();
  });

  test("may be off an end by just the tolerance", () => {
    const up = (x: number): number => x;
    for (const [target, end] of [
      [-0.25, 0],
      [10.25, 10],
    ] as const)
      expect(Math.abs((solution(up, range, target, 0.25) ?? NaN) - end)).toBeLessThanOrEqual(0.25);
  });

  test("out of reach is known to be so from a look at either end", () => {
    const { f, at } = watched((x) => x * x);
    for (const target of [-1, 101]) {
      at.length = 0;
      expect(solution(f, range, target, 1e-9)).toBeUndefined();
      expect(at).toEqual([0, 10]);
    }
  });

  test("that is not reached is refused with the side on which it lies", () => {
    const sought = (target: number) => reasonOf(() => invert((x) => x * x, range, target, 1e-9));
    expect(sought(-1)).toEqual({ kind: "no-solution", range, sought: "below" });
    expect(sought(101)).toEqual({ kind: "no-solution", range, sought: "above" });
  });

  test("that a jump leaps over is given up after a hundred looks or so", () => {
    const { f, at } = watched((x) => (x < 5 ? 0 : 1));
    expect(solution(f, range, 0.5, 1e-9)).toBeUndefined();
    expect(at.length).toBe(102);
  });
});
