import fc from "fast-check";
import { expect, test } from "vitest";
import { invert } from "../../../src/core/numeric/invert.js";
import { Refusal } from "../../../src/core/refusal.js";
import { extractFrom, extractTo, scales, SIXTY_F, writtenSg } from "../../../src/core/liquid/scales.js";
import { celsius, celsiusDifference, fromCelsius } from "../../../src/core/liquid/temperature.js";

test("there and back on every scale is the same wort, from −4 to 30 °P", () => {
  for (const scale of scales)
    fc.assert(
      fc.property(fc.double({ min: -4, max: 30, noNaN: true }), (p) => {
        expect(extractFrom(extractTo(p, scale), scale)).toBeCloseTo(p, 8);
      }),
    );
});

test("every scale rises with the extract", () => {
  for (const scale of scales)
    for (let p = -4; p <= 29; p += 0.5)
      expect(extractTo(p + 0.5, scale)).toBeGreaterThan(extractTo(p, scale));
});

test("every scale refuses past both ends, and what is no number", () => {
  for (const scale of scales) {
    for (const p of [-4.01, 30.01, NaN]) expect(() => extractTo(p, scale)).toThrow(Refusal);
    for (const value of [-1e6, 1e6, NaN, Infinity]) expect(() => extractFrom(value, scale)).toThrow(Refusal);
  }
});

test("scales read as their names say: 10 °P of NBS Table 114", () => {
  expect(extractTo(10, "SG")).toBeCloseTo(1.04003, 4);
  expect(extractTo(10, "PTS")).toBeCloseTo(40.03, 1);
  expect(extractTo(10, "BX")).toBe(10);
  expect(extractTo(10, "KGM3")).toBeCloseTo(1038.1, 1); // printed Plato density 1.03813 g/mL at 20/4 °C
  // 60/60 °F: density of the same wort and of water at 15.56 °C, printed for 15 °C as 1039.25 and 999.13.
  expect(extractTo(10, "SG60")).toBeCloseTo(1039.25 / 999.13, 3);
});

test("temperatures convert both ways", () => {
  expect(celsius(212, "F")).toBe(100);
  expect(fromCelsius(100, "F")).toBe(212);
  expect(SIXTY_F).toBeCloseTo(15.5556, 4);
  expect(celsius(fromCelsius(37.3, "C"), "C")).toBe(37.3);
});

test("differences of temperatures have no zero to shift: 9 °F are 5 °C", () => {
  expect(celsiusDifference(9, "F")).toBe(5);
  expect(celsiusDifference(9, "C")).toBe(9);
  expect(celsiusDifference(63.5, "F")).toBeCloseTo(celsius(100, "F") - celsius(36.5, "F"), 12);
});

test("a gravity written without its point is the same gravity, and degrees Plato are left alone", () => {
  for (const [written, sg] of [
    [1046, 1.046],
    [1.046, 1.046],
    [998, 0.998],
    [500, 0.5],
    [499, 499],
    [2000, 2],
    [2001, 2001],
    [12, 12],
    [-3, -3],
  ] as const)
    expect(writtenSg(written)).toBe(sg);
});

const range = { of: "x", min: 0, max: 10, unit: "" };

test("an inverse proves its answer, even of an awkward curve", () => {
  for (const f of [
    (x: number) => x ** 9,
    (x: number) => Math.expm1(x),
    (x: number) => Math.tanh(x - 5) + x * 1e-3,
  ])
    for (const x of [0, 1e-3, 2.5, 9.99, 10]) {
      const found = invert(f, range, f(x), 1e-9);
      expect(Math.abs(f(found) - f(x))).toBeLessThanOrEqual(1e-9);
    }
});

test("an inverse refuses a target that is not reached, and a curve that breaks", () => {
  for (const target of [-1, 101, NaN])
    expect(() => invert((x) => x * x, range, target, 1e-9)).toThrow(Refusal);
  expect(() => invert((x) => (x < 5 ? 0 : 1), range, 0.5, 1e-9)).toThrow(Refusal); // a jump has no root
  expect(() => invert(() => NaN, range, 0, 1e-9)).toThrow(Refusal);
});
