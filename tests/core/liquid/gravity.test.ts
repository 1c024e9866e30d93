import fc from "fast-check";
import { expect, test } from "vitest";
import {
  extractOfGravity,
  extractRange,
  gravityOfExtract,
  gravityRange,
} from "../../../src/core/liquid/gravity.js";
import { Refusal } from "../../../src/core/refusal.js";
import { secantSteps } from "../../support/secant-watch.js";
import { figure, reference, worst } from "../../support/reference.js";

// NBS Circular C440, Table 114, column 3: apparent specific gravity 20/20, printed to 5 decimals.
const table114 = reference("plato-sg-nbs114-apparent");
const brix = (row: (typeof table114)[number]): number => figure(row, "brix");
const printed = (row: (typeof table114)[number]): number => figure(row, "apparent_sg_20_20");

test("gravity of extract reproduces NBS Table 114 within 1e-5", () => {
  expect(table114.length).toBe(41);
  expect(worst(table114, (row) => gravityOfExtract(brix(row)) - printed(row)).by).toBeLessThanOrEqual(1e-5);
});

test("extract of gravity reads NBS Table 114 backwards within 1e-5 of gravity, 0.0026 °P", () => {
  expect(worst(table114, (row) => extractOfGravity(printed(row)) - brix(row)).by).toBeLessThanOrEqual(0.0026);
});

test("water has a gravity of exactly 1", () => {
  expect(gravityOfExtract(0)).toBe(1);
});

// Extract by mass of wort times its density: the table of a Russian state standard, printed to 0.1 g/L. Its own fit to
// another table is stated there as within 0.102 g/L.
test("grams of extract per litre agree with a printed table within 0.15 g/L", async () => {
  const { wortDensity20 } = await import("../../../src/core/liquid/wort-density.js");
  const rows = reference("plato-sg-extract-gl-gost");
  const perLitre = (sg: number): number => (extractOfGravity(sg) / 100) * wortDensity20(extractOfGravity(sg));
  expect(rows.length).toBe(80);
  expect(
    worst(rows, (row) => perLitre(figure(row, "d20_20")) - figure(row, "extract_g_per_L")).by,
  ).toBeLessThan(0.15);
});

test("there and back is the same wort, from −4 to 30 °P", () => {
  fc.assert(
    fc.property(fc.double({ min: extractRange.min, max: extractRange.max, noNaN: true }), (p) => {
      expect(Math.abs(extractOfGravity(gravityOfExtract(p)) - p)).toBeLessThan(1e-9);
    }),
  );
});

test("the extract of a gravity is found in four secant steps at most", () => {
  for (let p = -3.99; p <= 29; p += 0.37)
    expect(secantSteps(() => extractOfGravity(gravityOfExtract(p)))).toBeLessThanOrEqual(4);
});

test("more extract is always more gravity", () => {
  for (let i = -400; i < 3000; i++)
    expect(gravityOfExtract((i + 1) / 100)).toBeGreaterThan(gravityOfExtract(i / 100));
});

test("answers at both ends and refuses past them", () => {
  expect(extractOfGravity(gravityRange.min)).toBeCloseTo(-4, 9);
  expect(extractOfGravity(gravityRange.max)).toBeCloseTo(30, 9);
  for (const p of [-4.001, 30.001, NaN, Infinity]) expect(() => gravityOfExtract(p)).toThrow(Refusal);
  for (const sg of [0.984, 1.13, 0, -1, NaN, Infinity]) expect(() => extractOfGravity(sg)).toThrow(Refusal);
});

test("below water the curve goes on as the sucrose density does, within 0.04 °P at −4 °P", async () => {
  const { sucroseDensity } = await import("../../../src/core/liquid/sucrose-expansion.js");
  const { gravityOfDensity } = await import("../../../src/core/liquid/wort-density.js");
  for (const p of [-1, -2, -3, -4])
    expect(Math.abs(gravityOfExtract(p) - gravityOfDensity(sucroseDensity(p / 100, 20)))).toBeLessThan(
      0.04 * 0.0039,
    );
});
