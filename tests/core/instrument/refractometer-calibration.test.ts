import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gravityOfExtract } from "../../../src/core/liquid/gravity.js";
import {
  wortFactorOf,
  waterReadingOf,
  type WortPair,
} from "../../../src/core/instrument/refractometer-calibration.js";
import {
  brixByRefractometer,
  extractByRefractometer,
  plainRefractometer,
} from "../../../src/core/instrument/refractometer.js";
import { near } from "../../support/near.js";
import { figure, reference } from "../../support/reference.js";
import { reasonOf } from "../../support/refused.js";

const water = (...readings: number[]) => readings.map((reading) => ({ reading }));

describe("a reading on water", () => {
  test("is the middle of several, and a misreading is an outlier", () => {
    const { numbers, pairs, warnings } = waterReadingOf(water(0.2, 0.2, 1.4, 0.3), plainRefractometer);
    expect(numbers.waterReading).toBeCloseTo(0.25, 12);
    expect(pairs[2]?.residual).toBeCloseTo(-1.15, 12);
    expect(warnings).toEqual([{ kind: "outlier", pair: 2 }]);
  });

  test("scatters if it was taken more than once", () => {
    const spread = (...readings: number[]) =>
      waterReadingOf(water(...readings), plainRefractometer).numbers.standardDeviation;
    expect(spread(0.2)).toBeUndefined();
    // Two readings are half their distance from the middle.
    expect(spread(0.2, 0.4)).toBeCloseTo(0.1 * 1.4826, 9);
  });

  test("counts what the 1936 table adds to 0 °Bx, where the instrument does not compensate", () => {
    const row = reference("refractive-tempcorr-1936").find(
      (each) => figure(each, "t_C") === 25 && figure(each, "brix_read") === 0,
    );
    const old = { ...plainRefractometer, compensates: false };
    const { waterReading } = waterReadingOf([{ reading: -0.1, tC: 25 }], old).numbers;
    expect(waterReading).toBeCloseTo(-0.1 + figure(row, "add"), 12);
    expect(reasonOf(() => waterReadingOf(water(0.1), old))).toMatchObject({
      kind: "in-pair",
      because: { kind: "out-of-range", range: { unit: "°C" } },
    });
  });

  test("may be on an SG scale", () => {
    const { numbers } = waterReadingOf(water(1.001, 1.001, 1.002), { scale: "SG", compensates: true });
    expect(numbers.waterReading).toBeCloseTo(1.001, 12);
    const zeroed = { ...plainRefractometer, scale: "SG", waterReading: numbers.waterReading } as const;
    expect(brixByRefractometer(1.001, zeroed)).toBeCloseTo(0, 9);
  });

  test("is refused where there is none, or another liquid", () => {
    expect(reasonOf(() => waterReadingOf(water(), plainRefractometer))).toMatchObject({
      kind: "too-few-pairs",
    });
    for (const bad of [2.1, -2.1, NaN])
      expect(reasonOf(() => waterReadingOf(water(0, bad), plainRefractometer))).toMatchObject({
        kind: "in-pair",
        pair: 1,
      });
  });

  test("that will not stand still is said", () => {
    const { warnings } = waterReadingOf(water(0, 0.4, 0.8), plainRefractometer);
    expect(warnings).toEqual([{ kind: "scattered", standardDeviation: near(0.4 * 1.4826, 9), allowed: 0.2 }]);
  });
});

const wort = (reading: number, extract: number): WortPair => ({ reading, extract });

describe("a wort correction factor", () => {
  test("is °Bx over °P: 12.48 °Bx in wort of 12 °P is 1.04", () => {
    const { numbers, pairs, warnings } = wortFactorOf([wort(12.48, 12)], plainRefractometer);
    expect(numbers.factor).toBeCloseTo(1.04, 12);
    expect(numbers.standardDeviation).toBeUndefined();
    expect(pairs[0]?.fitted).toBeCloseTo(12, 12);
    expect(warnings).toEqual([{ kind: "few-pairs", given: 1, wanted: 3 }]);
  });

  // Scaled MAD by hand: ratios 1.02, 1.03, 1.04, 1.05, 1.15; median 1.04; deviations 0.02, 0.01, 0, 0.01, 0.11.
  test("is the middle of the pairs' own, with their standard deviation, and an outlier is named, not left out", () => {
    const { numbers, pairs, warnings } = wortFactorOf(
      [1.02, 1.03, 1.15, 1.04, 1.05].map((ratio) => wort(10 * ratio, 10)),
      plainRefractometer,
    );
    expect(numbers.factor).toBeCloseTo(1.04, 12);
    expect(numbers.standardDeviation).toBeCloseTo(0.01 * 1.4826, 9);
    expect(warnings).toEqual([{ kind: "outlier", pair: 2 }]);
    expect(pairs.length).toBe(5);
    expect(pairs[2]?.residual).toBeCloseTo(10 - 11.5 / 1.04, 9);
  });

  test("is found again from readings that an instrument made, and one misread pair does not move it", () => {
    const strengths = fc.uniqueArray(fc.integer({ min: 50, max: 240 }), { minLength: 3, maxLength: 9 });
    fc.assert(
      fc.property(
        fc.double({ min: 0.92, max: 1.08, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        strengths,
        fc.nat(),
        (factor, waterReading, tenths, nth) => {
          const made = { ...plainRefractometer, waterReading };
          const pairs = tenths.map((p) => wort((factor * p) / 10 + waterReading, p / 10));
          expect(wortFactorOf(pairs, made).numbers.factor).toBeCloseTo(factor, 10);
          const wrong = nth % pairs.length;
          const misread = pairs.map((pair, i) =>
            i === wrong ? { ...pair, reading: pair.reading + 0.1 * pair.extract } : pair,
          );
          const fit = wortFactorOf(misread, made);
          expect(fit.numbers.factor).toBeCloseTo(factor, 10);
          expect(fit.warnings).toEqual([{ kind: "outlier", pair: wrong }]);
        },
      ),
    );
  });

  test("takes the temperature of a prism that does not compensate", () => {
    const old = { ...plainRefractometer, compensates: false };
    // 1936 table: 0.77 is added to 10 °Bx at 30 °C.
    const { factor } = wortFactorOf([{ reading: 10, tC: 30, extract: 10.77 / 1.03 }], old).numbers;
    expect(factor).toBeCloseTo(1.03, 9);
    expect(reasonOf(() => wortFactorOf([wort(10, 10)], old))).toMatchObject({ kind: "in-pair", pair: 0 });
  });

  test("by an SG scale comes from the sucrose solution that the prism sees", () => {
    const sg = { ...plainRefractometer, scale: "SG", waterReading: 1 } as const;
    const { factor } = wortFactorOf([wort(gravityOfExtract(12.36), 12)], sg).numbers;
    expect(factor).toBeCloseTo(1.03, 9);
    expect(extractByRefractometer(12.36, factor)).toBeCloseTo(12, 9);
  });

  test("says of thin wort that it tells little", () => {
    const { warnings } = wortFactorOf([wort(4.1, 4), wort(10.2, 10), wort(12.3, 12)], plainRefractometer);
    expect(warnings).toEqual([{ kind: "weak-wort", pair: 0, wanted: 5 }]);
  });

  // Scaled MAD by hand: ratios 1, 1.03, 1.06; median 1.03; deviations 0.03, 0, 0.03.
  test("from pairs that do not agree is said to be so", () => {
    const { warnings } = wortFactorOf(
      [1, 1.03, 1.06].map((ratio) => wort(10 * ratio, 10)),
      plainRefractometer,
    );
    expect(warnings).toEqual([
      { kind: "scattered", standardDeviation: near(0.03 * 1.4826, 9), allowed: 0.02 },
    ]);
  });

  test("is refused without pairs, for mixed-up pairs, hardly any wort, and outside 0.9 to 1.1", () => {
    expect(reasonOf(() => wortFactorOf([], plainRefractometer))).toMatchObject({ kind: "too-few-pairs" });
    for (const bad of [wort(10, 1.04), wort(6, 12), wort(12, 9), wort(NaN, 10), wort(10, NaN), wort(31, 28)])
      expect(reasonOf(() => wortFactorOf([wort(10, 10), bad], plainRefractometer))).toMatchObject({
        kind: "in-pair",
        pair: 1,
        because: { kind: "out-of-range" },
      });
    expect(reasonOf(() => wortFactorOf([wort(11.5, 10)], plainRefractometer))).toMatchObject({
      kind: "out-of-range",
      range: { of: "wort correction factor" },
    });
  });
});
