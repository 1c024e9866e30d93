import { describe, expect, test } from "vitest";
import { Secant } from "../../../src/core/numeric/secant.js";

const anywhere = { min: -100, max: 100 };

test("a straight line is there in one step from anywhere, if its slope is known", () => {
  const secant = new Secant(-3, 2.5);
  secant.next(2.5 * secant.x - 10);
  expect(secant.x).toBeCloseTo(4, 12);
});

test("a straight line is there in two steps, whatever slope was guessed", () => {
  for (const guess of [0.3, 2.5, 40]) {
    const secant = new Secant(-3, guess);
    secant.next(2.5 * secant.x - 10);
    secant.next(2.5 * secant.x - 10);
    expect(secant.x).toBeCloseTo(4, 9);
  }
});

test("the root of 2 has ten digits after five steps, as the secant method's order of 1.6 has it", () => {
  const secant = new Secant(1.5, 2.8);
  const misses: number[] = [];
  for (let step = 0; step < 5; step++) {
    secant.next(secant.x ** 2 - 2);
    misses.push(Math.abs(secant.x - Math.SQRT2));
  }
  expect(misses.at(-1)).toBeLessThan(1e-10);
  expect(misses.at(1)).toBeLessThan(misses[0] ?? NaN);
});

describe("a search goes on", () => {
  test("at both ends of the range and not past them", () => {
    const range = { min: -4, max: 30 };
    for (const x of [-4, 0, 30]) expect(new Secant(x, 1).mayContinue(range)).toBe(true);
    for (const x of [-4.000001, 30.000001, NaN]) expect(new Secant(x, 1).mayContinue(range)).toBe(false);
  });

  test("for eight steps and no longer", () => {
    const secant = new Secant(0, 1);
    for (let step = 0; step < 8; step++) {
      expect(secant.mayContinue(anywhere)).toBe(true);
      secant.next(step % 2 === 0 ? 1 : -1); // up and down for ever
    }
    expect(secant.mayContinue(anywhere)).toBe(false);
  });
});
