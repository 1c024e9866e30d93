import type { CheckPoint } from "../../../src/core/instrument/check-point.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { calibrationLine } from "../../../src/core/instrument/calibration.js";
import {
  floatingCalibration,
  repeatedMedianLine,
} from "../../../src/core/instrument/floating-calibration.js";
import { near } from "../../support/near.js";
import { figure, reference } from "../../support/reference.js";
import { reasonOf } from "../../support/refused.js";

const norris: CheckPoint[] = reference("nist-strd-norris").map((row) => ({
  reading: figure(row, "x"),
  true: figure(row, "y"),
}));

describe("NIST's calibration of ozone monitors (StRD Norris)", () => {
  test("gives the certified line to 11 digits", () => {
    expect(norris.length).toBe(36);
    const { offset, slope } = calibrationLine(norris);
    expect(Math.abs(offset / -0.262323073774029 - 1)).toBeLessThan(1e-11);
    expect(Math.abs(slope / 1.00211681802045 - 1)).toBeLessThan(1e-11);
  });

  test("gives the certified residual standard deviation, once it is put on a scale that a hydrometer has", () => {
    const scaled = norris.map((pair) => ({
      reading: 1 + pair.reading / 10_000,
      true: 1 + pair.true / 10_000,
    }));
    const { numbers } = floatingCalibration({ scale: "SG", pairs: scaled });
    // Scatter is in units of the reading: the certified 0.8848 by the certified slope.
    expect(10_000 * (numbers.scatter ?? NaN)).toBeCloseTo(0.884796396144373 / 1.00211681802045, 7);
  });

  test("lies near its repeated-median line as well: within three certified standard deviations of the slope", () => {
    expect(Math.abs(repeatedMedianLine(norris).slope - 1.00211681802045)).toBeLessThan(
      3 * 0.000429796848199937,
    );
  });
});

const marks = fc.uniqueArray(fc.integer({ min: 1000, max: 1100 }), { minLength: 5, maxLength: 12 });

/** Pairs that an instrument with this line would give. */
const madeBy = (offset: number, slope: number, thousandths: readonly number[]): CheckPoint[] =>
  thousandths.map((sg) => ({ reading: sg / 1000, true: 1 + offset + slope * (sg / 1000 - 1) }));

test("a made-up instrument is found again, and a misread pair is named though it draws the line", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -0.005, max: 0.005, noNaN: true }),
      fc.double({ min: 0.8, max: 1.2, noNaN: true }),
      marks,
      fc.nat(),
      (offset, slope, thousandths, nth) => {
        const pairs = madeBy(offset, slope, thousandths);
        const { line, scatter } = floatingCalibration({ scale: "SG", pairs }).numbers;
        expect(line.slope).toBeCloseTo(slope, 9);
        expect(line.offset + line.slope).toBeCloseTo(1 + offset, 9);
        expect(scatter).toBeCloseTo(0, 9);

        const wrong = nth % pairs.length;
        const misread = pairs.map((pair, i) => (i === wrong ? { ...pair, true: pair.true + 0.004 } : pair));
        const agreed = repeatedMedianLine(misread);
        expect(agreed.slope).toBeCloseTo(slope, 9);
        expect(agreed.offset + agreed.slope).toBeCloseTo(1 + offset, 9);
        const span = Math.max(...thousandths) - Math.min(...thousandths);
        fc.pre(span >= 40);
        expect(floatingCalibration({ scale: "SG", pairs: misread }).warnings).toEqual([
          { kind: "outlier", pair: wrong },
        ]);
      },
    ),
  );
});

test("one pair shifts, two make a line, and neither says how well it fits", () => {
  for (const pairs of [madeBy(0.002, 1, [1010]), madeBy(0.002, 1.1, [1010, 1050])]) {
    const { numbers, pairs: fitted, warnings } = floatingCalibration({ scale: "SG", pairs });
    expect(numbers.scatter).toBeUndefined();
    for (const { residual } of fitted) expect(residual).toBeCloseTo(0, 12);
    expect(warnings).toEqual([{ kind: "few-pairs", given: pairs.length, wanted: 3 }]);
  }
});

test("three pairs say how well they fit: what is left over, by the one degree of freedom", () => {
  // The line is x + 0.1; −0.1, 0.2 and −0.1 are left.
  const pairs = [
    { reading: 2, true: 2 },
    { reading: 7, true: 7.3 },
    { reading: 12, true: 12 },
  ];
  const { numbers } = floatingCalibration({ scale: "P", pairs });
  expect(numbers.line.offset).toBeCloseTo(0.1, 9);
  expect(numbers.scatter).toBeCloseTo(Math.sqrt(0.06), 9);
});

test("pairs closer together than 0.020 SG (5 °P) make a line that tilts", () => {
  expect(floatingCalibration({ scale: "SG", pairs: madeBy(0, 1, [1000, 1010, 1019]) }).warnings).toEqual([
    { kind: "short-span", span: near(0.019, 9), wanted: 0.02 },
  ]);
  const degrees = [2, 5, 6].map((p) => ({ reading: p, true: p + 0.2 }));
  expect(floatingCalibration({ scale: "P", pairs: degrees }).warnings).toMatchObject([
    { kind: "short-span" },
  ]);
  const fiveApart = [2, 5, 7].map((p) => ({ reading: p, true: p + 0.2 }));
  expect(floatingCalibration({ scale: "P", pairs: fiveApart }).warnings).toEqual([]);
});

test("no pairs, one reading for all, mixed-up pairs and impossible marks are refused", () => {
  const calibrate = (pairs: CheckPoint[]) => reasonOf(() => floatingCalibration({ scale: "SG", pairs }));
  expect(calibrate([])).toMatchObject({ kind: "too-few-pairs" });
  const same = [1, 1.002, 1.004].map((truth) => ({ reading: 1.0123, true: truth }));
  expect(calibrate(same)).toEqual({ kind: "one-reading", reading: 1.0123 });
  expect(
    calibrate([
      { reading: 1.05, true: 1.01 },
      { reading: 1.01, true: 1.05 },
    ]),
  ).toMatchObject({ kind: "out-of-range", range: { of: "slope of the calibration line" } });
  for (const bad of [
    { reading: 12, true: 1.05 },
    { reading: 1.05, true: 12 },
    { reading: NaN, true: 1.05 },
  ])
    expect(calibrate([{ reading: 1.01, true: 1.01 }, bad])).toMatchObject({ kind: "in-pair", pair: 1 });
});
