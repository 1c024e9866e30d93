import { expect, test } from "vitest";
import { Refusal } from "../../../src/core/refusal.js";
import { waterDensity } from "../../../src/core/liquid/water-density.js";
import { figure, reference, worst } from "../../support/reference.js";

const table = reference("water-density-table");

test("water is within 0.006 kg/m³ of IAPWS-95 from 0 to 80 °C", () => {
  const rows = table.filter((row) => figure(row, "t_C") <= 80);
  expect(rows.length).toBeGreaterThan(80);
  expect(
    worst(rows, (row) => waterDensity(figure(row, "t_C")) - figure(row, "iapws95")).by,
  ).toBeLessThanOrEqual(0.006);
});

test("water answers at both ends of the range and refuses past them", () => {
  for (const t of [0, 100]) expect(waterDensity(t)).toBeGreaterThan(900);
  for (const t of [-0.001, 100.001, NaN, Infinity]) expect(() => waterDensity(t)).toThrow(Refusal);
});

test("water is densest near 4 °C", () => {
  expect(waterDensity(3.98)).toBeGreaterThan(waterDensity(3.5));
  expect(waterDensity(3.98)).toBeGreaterThan(waterDensity(4.5));
});
