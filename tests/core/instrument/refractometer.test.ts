import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gravityOfExtract } from "../../../src/core/liquid/gravity.js";
import { Refusal } from "../../../src/core/refusal.js";
import { ethanolIndex, sucroseIndex, WATER_INDEX } from "../../../src/core/liquid/refractive-index.js";
import { refractometerCorrection } from "../../../src/core/instrument/refractometer-temperature.js";
import {
  brixByRefractometer,
  extractByRefractometer,
  plainRefractometer,
  type Refractometer,
} from "../../../src/core/instrument/refractometer.js";
import { told } from "../../support/told.js";
import { figure, reference, rowsWith, worst } from "../../support/reference.js";

test("the index of sucrose is within 1e-5 of the ICUMSA 1974 scale (from memory), 0 to 30 °Bx", () => {
  const rows = rowsWith("refractive-sucrose-n20", "icumsa1974_n").filter(
    (row) => figure(row, "mass_pct") <= 30,
  );
  expect(rows.length).toBe(31);
  expect(
    worst(rows, (row) => sucroseIndex(figure(row, "mass_pct")) - figure(row, "icumsa1974_n")).by,
  ).toBeLessThan(1e-5);
});

test("the index of sucrose is within 7e-5 of the CRC Handbook, whose last digit is 1e-4", () => {
  const rows = rowsWith("refractive-sucrose-n20", "crc_n").filter((row) => figure(row, "mass_pct") <= 30);
  expect(worst(rows, (row) => sucroseIndex(figure(row, "mass_pct")) - figure(row, "crc_n")).by).toBeLessThan(
    7e-5,
  );
});

test("the index of ethanol in water is that of the CRC Handbook within its last digit, 0.5 to 20 %", () => {
  const rows = rowsWith("refractive-ethanol-n20", "n").filter((row) => figure(row, "mass_pct") <= 20);
  expect(rows.length).toBe(21);
  const off = (row: (typeof rows)[number]): number => {
    const gramsPerMl = (figure(row, "mass_pct") / 100) * figure(row, "density_gml");
    return WATER_INDEX + ethanolIndex(gramsPerMl) - figure(row, "n");
  };
  expect(worst(rows, off).by).toBeLessThan(1e-4);
});

test("temperature corrections are those of the 1936 table in every cell, 10 to 30 °C and 0 to 30 °Bx", () => {
  const rows = reference("refractive-tempcorr-1936").filter((row) => figure(row, "brix_read") <= 30);
  expect(rows.length).toBeGreaterThanOrEqual(140);
  const off = (row: (typeof rows)[number]): number =>
    refractometerCorrection(figure(row, "brix_read"), figure(row, "t_C")) - figure(row, "add");
  expect(worst(rows, off).by).toBeLessThan(1e-9);
});

test("the superseded table of the old CRC Handbook is never more than 0.11 °Bx away", () => {
  const rows = reference("refractive-tempcorr-crc-old").filter((row) => figure(row, "brix_read") <= 30);
  const off = (row: (typeof rows)[number]): number =>
    refractometerCorrection(figure(row, "brix_read"), figure(row, "t_C")) - figure(row, "add");
  expect(worst(rows, off).by).toBeLessThan(0.11);
});

test("at 30 °C the correction agrees with the measured index of glucose syrup (ISO 1743) within 0.025 °Bx", () => {
  // A syrup whose index at 20 °C is B °Bx shows less at 30 °C; what is missing is the correction.
  const rows = reference("refractive-glucose-syrup-iso1743").filter(
    (row) => figure(row, "brix_of_n20") <= 28,
  );
  const brixOf = (n: number): number => {
    const x = n - WATER_INDEX;
    return 700.450288 * x - 1838.366419 * x ** 2 + 4758.943798 * x ** 3; // inverse fit of the reference notes
  };
  const off = (row: (typeof rows)[number]): number => {
    const seen = brixOf(figure(row, "n_30C"));
    return seen < 0 ? 0 : seen + refractometerCorrection(seen, 30) - brixOf(figure(row, "n_20C"));
  };
  expect(worst(rows, off).by).toBeLessThan(0.025);
});

test("the warmer the prism, the more is added", () => {
  const t = fc.double({ min: 10, max: 29, noNaN: true });
  fc.assert(
    fc.property(fc.double({ min: 0, max: 30, noNaN: true }), t, (brix, tC) => {
      expect(refractometerCorrection(brix, tC + 1)).toBeGreaterThan(refractometerCorrection(brix, tC));
    }),
  );
});

test("10 to 30 °C and 0 to 30 °Bx are answered, past them refused", () => {
  for (const [b, t] of [
    [0, 10],
    [30, 30],
    [0, 30],
    [30, 10],
  ] as const)
    expect(refractometerCorrection(b, t)).not.toBeNaN();
  for (const [b, t] of [
    [-0.1, 20],
    [30.1, 20],
    [12, 9.9],
    [12, 30.1],
    [NaN, 20],
    [12, NaN],
  ] as const)
    expect(() => refractometerCorrection(b, t)).toThrow(Refusal);
});

test("what it shows on water is taken off, on either scale", () => {
  expect(brixByRefractometer(12.2, { ...plainRefractometer, waterReading: 0.2 })).toBeCloseTo(12, 12);
  const sg = { ...plainRefractometer, scale: "SG", waterReading: 1 } as const;
  expect(brixByRefractometer(1.04003, sg)).toBeCloseTo(10, 2); // NBS Table 114
});

test("an instrument that does not compensate must have a temperature", () => {
  const old = { ...plainRefractometer, compensates: false };
  expect(brixByRefractometer(10, old, 30)).toBeCloseTo(10.77, 9); // 1936 table, 10 °Bx at 30 °C
  expect(() => brixByRefractometer(10, old)).toThrow(Refusal);
});

test("a wort correction factor of 1.04 (common practice, no source) makes 12.48 °Bx 12 °P", () => {
  expect(extractByRefractometer(12.48, plainRefractometer.wortFactor)).toBeCloseTo(12, 12);
  for (const factor of [0, 0.89, 1.11, NaN])
    expect(() => extractByRefractometer(12, factor)).toThrow(Refusal);
});

describe("what is told of a reading", () => {
  const steps = (refractometer: Refractometer, reading: number, tC?: number) =>
    told((to) => brixByRefractometer(reading, refractometer, tC, to)).steps.map(({ value }) => value);

  test("has its zero only where that is off, and its scale only where that is SG", () => {
    expect(steps(plainRefractometer, 12)).toEqual([12]);
    expect(steps({ ...plainRefractometer, waterReading: 0.5 }, 12)).toEqual([11.5, 11.5]);
    const [sucrose, ...rest] = steps(
      { ...plainRefractometer, scale: "SG", waterReading: 1 },
      gravityOfExtract(12),
    );
    expect(sucrose).toBeCloseTo(12, 9);
    expect(rest).toEqual([sucrose]);
  });

  test("on an SG scale rests on the printed gravity table first, and never on the profile alone", () => {
    const sg = { ...plainRefractometer, scale: "SG", waterReading: 1 } as const;
    const { steps } = told((to) => brixByRefractometer(1.048, sg, undefined, to));
    expect(steps[0]?.source).toMatch(/Table 114/);
  });
});
