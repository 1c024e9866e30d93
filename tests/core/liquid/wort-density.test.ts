import { expect, test } from "vitest";
import { Refusal } from "../../../src/core/refusal.js";
import { sucroseDensity } from "../../../src/core/liquid/sucrose-expansion.js";
import { waterDensity, WATER_20 } from "../../../src/core/liquid/water-density.js";
import {
  extractOfDensity,
  volumeRatio,
  wortDensity,
  wortDensity20,
} from "../../../src/core/liquid/wort-density.js";
import { secantSteps } from "../../support/secant-watch.js";
import { figure, reference, rowsWith, worst } from "../../support/reference.js";

const AIR = 0.0012; // g/mL, as the tables of weights in air state
const BRASS = 8.4; // g/mL
const GALLON = 3785.412; // mL
const POUND = 453.5924; // g

test("the sucrose formula was typed right: every cell of its computed grid to 4 decimals", () => {
  const rows = reference("density-sucrose-sps4-computed-grid");
  let cells = 0;
  for (const row of rows)
    for (const column of Object.keys(row).filter((name) => name.startsWith("t"))) {
      const t = Number(column.slice(1));
      expect(sucroseDensity(figure(row, "mass_percent") / 100, t)).toBeCloseTo(figure(row, column), 3.5);
      cells += 1;
    }
  expect(cells).toBeGreaterThan(200);
});

test("the sucrose coefficients add up as those of the source do", () => {
  // At τ = 1 and w = 1 the formula is water plus the sum of all coefficients.
  const sum = reference("density-sucrose-sps4-coefficients").reduce(
    (total, row) => total + figure(row, "coefficient"),
    0,
  );
  expect(sucroseDensity(1, 100) - waterDensity(100)).not.toBeCloseTo(sum, 6); // τ is 0.8 at 100 °C
  const weighted = reference("density-sucrose-sps4-coefficients").reduce(
    (total, row) => total + figure(row, "coefficient") * 0.8 ** figure(row, "tau_power"),
    0,
  );
  expect(sucroseDensity(1, 100) - waterDensity(100)).toBeCloseTo(weighted, 9);
});

test("density at 20 °C is that of a printed Plato table within 0.03 kg/m³, 0 to 30 %", () => {
  const rows = reference("density-sucrose-plato-15-20").filter((row) => figure(row, "mass_percent") <= 30);
  const printed = (row: (typeof rows)[number]): number => figure(row, "d20_4_x1000") * 0.999972;
  expect(worst(rows, (row) => wortDensity20(figure(row, "mass_percent")) - printed(row)).by).toBeLessThan(
    0.03,
  );
});

test("density at 15 °C is that of the same table within 0.1 kg/m³", () => {
  const rows = reference("density-sucrose-plato-15-20").filter((row) => figure(row, "mass_percent") <= 30);
  const printed = (row: (typeof rows)[number]): number => figure(row, "d15_4_x1000") * 0.999972;
  expect(worst(rows, (row) => wortDensity(figure(row, "mass_percent"), 15) - printed(row)).by).toBeLessThan(
    0.1,
  );
});

// NBS Circular C457, Table 2. Half its last digit is 0.0005 lb; its 30 °C column is known to expand a little less.
test("weights per gallon agree with NBS C457 within 0.0015 lb, 10 to 30 °C", () => {
  const pounds = (p: number, t: number): number =>
    (((wortDensity(p, t) / 1000 - AIR) / (1 - AIR / BRASS)) * GALLON) / POUND;
  const rows = reference("density-sucrose-nbs457-weights");
  expect(rows.length).toBe(35);
  const { by } = worst(
    rows,
    (row) => pounds(figure(row, "brix"), figure(row, "t_C")) - figure(row, "pounds_per_us_gallon_in_air"),
  );
  expect(by).toBeLessThan(0.0015);
});

test("apparent density agrees with the sugar laboratory's table within 0.0001 g/mL", () => {
  const rows = reference("density-sucrose-nbs440-apparent-density").filter(
    (row) => row["flag"] !== "suspect",
  );
  const apparent = (p: number): number => (wortDensity20(p) / 1000 - AIR) / (1 - AIR / BRASS);
  expect(rows.length).toBe(159);
  const { by } = worst(
    rows,
    (row) => apparent(figure(row, "brix")) - figure(row, "apparent_density_g_per_mL_20C"),
  );
  expect(by).toBeLessThan(0.0001);
});

test("pounds per gallon agree with a printed table within 0.001 lb, 0 to 5 °Bx", () => {
  const rows = reference("density-sucrose-nbs440-lb-per-gallon");
  const pounds = (p: number): number =>
    (((wortDensity20(p) / 1000 - AIR) / (1 - AIR / BRASS)) * GALLON) / POUND;
  const { by } = worst(
    rows,
    (row) => pounds(figure(row, "brix")) - figure(row, "pounds_per_us_gallon_in_air"),
  );
  expect(by).toBeLessThanOrEqual(0.001);
});

test("in vacuo, gravity 20/20 agrees with NBS Table 109 within 2e-5", () => {
  const rows = rowsWith("plato-sg-true-2020-anchors", "nbs109_d20_20").filter(
    (row) => figure(row, "mass_percent") <= 30,
  );
  expect(rows.length).toBe(3);
  const { by } = worst(
    rows,
    (row) => wortDensity20(figure(row, "mass_percent")) / WATER_20 - figure(row, "nbs109_d20_20"),
  );
  expect(by).toBeLessThanOrEqual(2e-5);
});

test("extract of density is the inverse at every temperature", () => {
  for (const t of [0, 15.5556, 20, 60, 80, 100])
    for (const p of [-4, -0.5, 0, 12, 29.9]) expect(extractOfDensity(wortDensity(p, t), t)).toBeCloseTo(p, 9);
});

test("the extract of a density is found in four secant steps at most, at any temperature", () => {
  for (const t of [0, 20, 45, 80, 100])
    for (let p = -3.9; p <= 29; p += 0.63)
      expect(secantSteps(() => extractOfDensity(wortDensity(p, t), t))).toBeLessThanOrEqual(4);
});

test("a density outside −4 to 30 °P is refused, not clamped", () => {
  for (const rho of [980, 1130, NaN, 0]) expect(() => extractOfDensity(rho, 20)).toThrow(Refusal);
  expect(() => wortDensity(10, 101)).toThrow(Refusal);
});

test("wort that cools keeps its mass", () => {
  for (const [from, to] of [
    [100, 20],
    [70, 55],
    [4, 60],
  ] as const) {
    expect(volumeRatio(0, from, to)).toBeCloseTo(waterDensity(from) / waterDensity(to), 9); // water by itself
    for (const p of [2, 12, 25])
      expect(volumeRatio(p, from, to)).toBeCloseTo(wortDensity(p, from) / wortDensity(p, to), 9);
  }
});

test("wort shrinks by about 4 % from the boil to 20 °C (common practice, no source)", () => {
  expect(1 - volumeRatio(12, 100, 20)).toBeCloseTo(0.04, 2);
});
