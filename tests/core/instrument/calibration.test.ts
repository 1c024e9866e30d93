import { describe, expect, test } from "vitest";
import { eachPair } from "../../../src/core/instrument/calibration-fit.js";
import { calibrationLine, shiftAt } from "../../../src/core/instrument/calibration.js";
import { extractByFloating } from "../../../src/core/instrument/floating.js";
import { gravityOfExtract } from "../../../src/core/liquid/gravity.js";
import { Refusal } from "../../../src/core/refusal.js";
import { told } from "../../support/told.js";

describe("a calibration line", () => {
  test("of no pairs leaves readings as they are, of one pair shifts them", () => {
    expect(calibrationLine([])).toEqual({ offset: 0, slope: 1 });
    const { offset, slope } = calibrationLine([{ reading: 1.01, true: 1.012 }]);
    expect([offset, slope]).toEqual([expect.closeTo(0.002, 12), 1]);
  });

  test("goes through pairs that lie on a line", () => {
    const pairs = [1, 2, 3, 4].map((x) => ({ reading: x, true: 0.5 + 1.25 * x }));
    const { offset, slope } = calibrationLine(pairs);
    expect(slope).toBeCloseTo(1.25, 12);
    expect(offset).toBeCloseTo(0.5, 12);
  });

  // Anscombe, Am. Stat. 27 (1973) 17, first data set (from memory): the regression line is y = 3.00 + 0.500 x.
  test("is the least-squares line of Anscombe's first set", () => {
    const x = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
    const y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68];
    const { offset, slope } = calibrationLine(x.map((reading, i) => ({ reading, true: y[i] ?? NaN })));
    expect(slope).toBeCloseTo(0.5, 3);
    expect(offset).toBeCloseTo(3, 2);
  });

  test("is refused where pairs are mixed up or all the same", () => {
    expect(() =>
      calibrationLine([
        { reading: 1.05, true: 1.01 },
        { reading: 1.01, true: 1.05 },
      ]),
    ).toThrow(Refusal);
    expect(() =>
      calibrationLine([
        { reading: 1, true: 1 },
        { reading: 1, true: 1.1 },
      ]),
    ).toThrow(Refusal);
  });
});

test("a fault is not taken for what is wrong with a pair", () => {
  const faulty = (): never => {
    throw new TypeError("a fault");
  };
  expect(() => eachPair([1], faulty)).toThrow(TypeError);
});

test("without check points nothing is shifted", () => {
  expect(shiftAt(1.05, [])).toBe(0);
});

describe("a floating hydrometer", () => {
  const pairs = [
    { reading: 1.01, true: 1.012 },
    { reading: 1.05, true: 1.05 },
  ];

  test("is put right by its line", () => {
    expect(gravityOfExtract(extractByFloating(1.03, { scale: "SG", pairs }))).toBeCloseTo(1.031, 9);
    expect(extractByFloating(6, { scale: "P", pairs: [{ reading: 2, true: 2.5 }] })).toBeCloseTo(6.5, 12);
  });

  test("says that it was never compared with glass, or reads outside its pairs", () => {
    const warnings = (reading: number, compared: typeof pairs) =>
      told((to) => extractByFloating(reading, { scale: "SG", pairs: compared }, to)).warnings;
    expect(warnings(1.03, [])).toEqual([{ kind: "never-calibrated" }]);
    expect(warnings(1.03, pairs)).toEqual([]);
    expect(warnings(1.06, pairs)).toEqual([{ kind: "outside-pairs", reading: 1.06, from: 1.01, to: 1.05 }]);
    // One pair is a shift, which is the same everywhere.
    expect(warnings(1.06, pairs.slice(1))).toEqual([]);
  });

  test("is trusted 0.020 beyond its pairs and no farther", () => {
    expect(extractByFloating(1.07, { scale: "SG", pairs })).toBeGreaterThan(0);
    for (const reading of [1.0701, 0.9899, NaN])
      expect(() => extractByFloating(reading, { scale: "SG", pairs })).toThrow(Refusal);
  });

  test("that reads as one of its pairs is not outside them, and one below them is", () => {
    const warnings = (reading: number) =>
      told((to) => extractByFloating(reading, { scale: "SG", pairs }, to)).warnings;
    for (const reading of [1.01, 1.05]) expect(warnings(reading)).toEqual([]);
    expect(warnings(1)).toEqual([{ kind: "outside-pairs", reading: 1, from: 1.01, to: 1.05 }]);
  });

  test("that was never compared reads as it does, whoever listens", () => {
    expect(extractByFloating(12, { scale: "P", pairs: [] })).toBe(12);
  });

  test("tells its steps in the unit of its scale, and where extract comes from", () => {
    const steps = (scale: "SG" | "P", reading: number) =>
      told((to) => extractByFloating(reading, { scale, pairs: [] }, to)).steps;
    expect(steps("P", 12).map(({ unit }) => unit)).toEqual(["", "°P", "°P", "°P"]);
    expect(steps("SG", 1.048).map(({ unit }) => unit)).toEqual(["", "", "SG", "°P"]);
    expect(steps("P", 12).at(-1)?.source).toBeUndefined();
    expect(steps("SG", 1.048).at(-1)?.source).toMatch(/Table 114/);
  });
});
