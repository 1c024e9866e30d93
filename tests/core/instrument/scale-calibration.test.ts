import type { CheckPoint } from "../../../src/core/instrument/check-point.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shiftAt } from "../../../src/core/instrument/calibration.js";
import { checkPoint, type GraduatedScale } from "../../../src/core/instrument/check-reading.js";
import { extractOfGravity, gravityOfExtract } from "../../../src/core/liquid/gravity.js";
import {
  extractByHydrometer,
  plainHydrometer,
  type Hydrometer,
} from "../../../src/core/instrument/hydrometer.js";
import { slippedScale, unevenScale } from "../../../src/core/instrument/scale-calibration.js";
import { SIXTY_F } from "../../../src/core/liquid/scales.js";
import { near } from "../../support/near.js";
import { figure, reference } from "../../support/reference.js";
import { reasonOf } from "../../support/refused.js";

const glass: GraduatedScale = { scale: "SG", meniscusAllowance: 0 };
const plato: GraduatedScale = { scale: "P", meniscusAllowance: 0 };
const points = (...pairs: [number, number][]): CheckPoint[] =>
  pairs.map(([reading, truth]) => ({ reading, true: truth }));

describe("a check reading", () => {
  test("in water of the calibration temperature should be at 1.000", () => {
    expect(checkPoint(0.998, 20, 0, plainHydrometer)).toEqual({
      reading: 0.998,
      true: near(1, 12),
    });
    const sixty: Hydrometer = { ...plainHydrometer, calibrationC: SIXTY_F, referenceC: SIXTY_F };
    expect(checkPoint(1, SIXTY_F, 0, sixty).true).toBeCloseTo(1, 12);
  });

  // The printed correction at 25 °C is what a 20 °C Brix hydrometer is short of in a liquid of that temperature.
  test("in warm sugar solution should be short by the printed correction within 0.02 °Bx", () => {
    const brix20: Hydrometer = { ...plainHydrometer, scale: "BX" };
    const row = reference("hydrometer-temp-brix20-transcribed").find((each) => figure(each, "t_C") === 25);
    for (const bx of [11, 15, 20, 25]) {
      const truth = bx + figure(row, `bx${bx}`);
      expect(Math.abs(checkPoint(bx, 25, truth, brix20).true - bx)).toBeLessThan(0.02);
    }
  });

  test("calibrates the instrument for the very liquid it was taken in", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2, max: 25, noNaN: true }),
        fc.double({ min: 5, max: 40, noNaN: true }), // in hotter water a °P scale would show less than −4
        fc.constantFrom("SG" as const, "P" as const, "BX" as const),
        fc.constantFrom(0, 0.001),
        (extract, tC, scale, meniscusAllowance) => {
          const made: Hydrometer = { ...plainHydrometer, scale, meniscusAllowance };
          const slip = scale === "SG" ? 0.003 : 0.7;
          const reading = checkPoint(0, tC, extract, made).true - slip;
          const { numbers } = slippedScale([checkPoint(reading, tC, extract, made)], made);
          const checked = { ...made, checks: numbers.checks };
          expect(extractByHydrometer(reading, tC, checked)).toBeCloseTo(extract, 8);
        },
      ),
    );
  });
});

describe("a slipped scale", () => {
  test("asks for the middle shift, whatever a misread pair says", () => {
    const { numbers, pairs, warnings } = slippedScale(
      points([0.998, 1], [1.038, 1.04], [1.058, 1.06], [1.018, 1.012]),
      glass,
    );
    expect(numbers.shift).toBeCloseTo(0.002, 12);
    expect(pairs.map(({ residual }) => residual)).toEqual([0, 0, 0, -0.008].map((left) => near(left, 12)));
    expect(warnings).toEqual([{ kind: "outlier", pair: 3 }]);
  });

  test("is found again from readings that it made, and no single misreading moves it past its neighbours", () => {
    const slips = fc.double({ min: -0.009, max: 0.009, noNaN: true });
    const truths = fc.uniqueArray(fc.integer({ min: 1000, max: 1110 }), { minLength: 3, maxLength: 9 });
    fc.assert(
      fc.property(slips, truths, fc.constantFrom(0, 0.001), fc.nat(), (slip, thousandths, meniscus, nth) => {
        const graduated = { ...glass, meniscusAllowance: meniscus };
        const made = thousandths.map((sg) => ({ reading: sg / 1000 - slip - meniscus, true: sg / 1000 }));
        expect(slippedScale(made, graduated).numbers.shift).toBeCloseTo(slip, 10);
        const wrong = nth % made.length;
        const misread = made.map((pair, i) => (i === wrong ? { ...pair, true: pair.true + 0.0055 } : pair));
        const fit = slippedScale(misread, graduated);
        expect(fit.numbers.shift).toBeCloseTo(slip, 10);
        expect(fit.warnings).toEqual([{ kind: "outlier", pair: wrong }]);
      }),
    );
  });

  test("is kept as one check point that shifts the whole scale, top of the meniscus or not", () => {
    for (const meniscusAllowance of [0, 0.001]) {
      const { numbers } = slippedScale(points([0.997, 1], [1.047, 1.05]), { ...glass, meniscusAllowance });
      expect(numbers.checks.length).toBe(1);
      for (const reading of [0.99, 1.02, 1.1])
        expect(shiftAt(reading, numbers.checks, meniscusAllowance)).toBeCloseTo(
          0.003 - meniscusAllowance,
          12,
        );
    }
  });

  test("says when the scale seems uneven instead, and when pairs are few", () => {
    const { warnings } = slippedScale(points([1, 1], [1.05, 1.054]), glass);
    expect(warnings).toEqual([
      { kind: "few-pairs", given: 2, wanted: 3 },
      { kind: "uneven", residual: near(0.002, 9), allowed: 0.001 },
    ]);
    expect(slippedScale(points([1, 1.002]), glass).numbers.standardDeviation).toBeUndefined();
  });

  test("scatters by what is left over at its pairs, and the worst of them says whether it is uneven", () => {
    // Shifts of 1, 2 and 4 points: 2 in the middle, from which they are 1, 0 and 2 away; 1.4826 times the middle of these.
    const { numbers, warnings } = slippedScale(points([1, 1.001], [1.02, 1.022], [1.05, 1.054]), glass);
    expect(numbers.standardDeviation).toBeCloseTo(1.4826e-3, 9);
    expect(warnings).toEqual([{ kind: "uneven", residual: near(0.002, 9), allowed: 0.001 }]);
  });

  test("that was read three times at one place scatters, and cannot be uneven", () => {
    expect(slippedScale(points([10, 10], [10, 10.1], [10, 10.5]), plato).warnings).toEqual([]);
  });
});

describe("an uneven scale", () => {
  test("keeps a check point for each place, of which pairs at one place make one", () => {
    const { numbers, pairs } = unevenScale(
      points([1.05, 1.054], [1, 1.001], [1.0504, 1.0544], [1.0502, 1.0552]),
      glass,
    );
    expect(numbers.checks).toEqual(
      points([1, 1.001], [1.0502, 1.0542]).map((point) => ({
        reading: near(point.reading, 9),
        true: near(point.true, 9),
      })),
    );
    expect(pairs[3]?.residual).toBeCloseTo(0.001, 9);
  });

  test("that was made up is followed at every point, and between them", () => {
    const shifts = fc.array(fc.double({ min: -0.004, max: 0.004, noNaN: true }), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(shifts, fc.constantFrom(0, 0.001), (made, meniscusAllowance) => {
        const pairs = made.map((shift, i) => {
          const reading = 1 + i * 0.018;
          return { reading, true: reading + meniscusAllowance + shift };
        });
        const { numbers, pairs: fitted } = unevenScale(pairs, { ...glass, meniscusAllowance });
        for (const { residual } of fitted) expect(residual).toBeCloseTo(0, 10);
        const between = shiftAt(1.009, numbers.checks, meniscusAllowance);
        expect(between).toBeCloseTo(((made[0] ?? 0) + (made[1] ?? made[0] ?? 0)) / 2, 10);
      }),
    );
  });
});

describe("limits are allowed themselves:", () => {
  test("a scale 4 °P off, two truths half a degree apart, and a piece of scale stretched or shrunk to half", () => {
    expect(slippedScale(points([10, 14]), plato).numbers.shift).toBe(4);
    expect(slippedScale(points([10, 10.25], [10, 10.75]), plato).numbers.shift).toBe(0.5);
    for (const upper of [14, 11]) {
      const pairs = points([10, 10], [12, upper]);
      expect(unevenScale(pairs, plato).numbers.checks).toEqual(pairs);
    }
  });
});

describe("pairs that make no sense are refused:", () => {
  test("none at all", () => {
    for (const fit of [slippedScale, unevenScale])
      expect(reasonOf(() => fit([], glass))).toEqual({ kind: "too-few-pairs", given: 0, needed: 1 });
  });

  test("a reading outside the graduation, a reading that is no number", () => {
    const finishing: GraduatedScale = { ...glass, lowest: 0.99, highest: 1.02 };
    for (const bad of [1.021, 0.989, NaN])
      expect(reasonOf(() => slippedScale(points([1, 1], [bad, 1.02]), finishing))).toMatchObject({
        kind: "in-pair",
        pair: 1,
        because: { kind: "out-of-range", range: { min: 0.99, max: 1.02 }, given: bad },
      });
    expect(slippedScale(points([1.02, 1.021]), finishing).numbers.shift).toBeCloseTo(0.001, 9);
  });

  test("a difference that no scale has", () => {
    for (const [reading, truth] of [
      [1.04, 1.06],
      [1.04, NaN],
    ] as const)
      expect(reasonOf(() => slippedScale(points([reading, truth]), glass))).toMatchObject({
        kind: "in-pair",
        because: { kind: "too-far-off", most: 0.015 },
      });
    expect(reasonOf(() => slippedScale(points([10, 14.1]), { ...glass, scale: "P" }))).toMatchObject({
      because: { kind: "too-far-off", unit: "°P" },
    });
  });

  test("one reading with two truths", () => {
    const pairs = points([1.01, 1.011], [1.04, 1.041], [1.04, 1.044]);
    for (const fit of [slippedScale, unevenScale])
      expect(reasonOf(() => fit(pairs, glass))).toMatchObject({
        kind: "pairs-contradict",
        one: { place: 1 },
        other: { place: 2 },
      });
    const alike = points([1.04, 1.041], [1.04, 1.042]);
    expect(unevenScale(alike, glass).numbers.checks).toEqual([{ reading: 1.04, true: near(1.0415, 9) }]);
  });

  test("the two of a place that are farthest apart, in whatever order they were read", () => {
    for (const [pairs, one, other] of [
      [points([1.04, 1.041], [1.041, 1.045], [1.0415, 1.0435]), 0, 1],
      [points([1.04, 1.044], [1.041, 1.042], [1.0415, 1.0435]), 0, 1],
      [points([1.04, 1.039], [1.041, 1.0395], [1.0415, 1.0372]), 0, 2],
    ] as const)
      expect(reasonOf(() => unevenScale(pairs, glass))).toMatchObject({
        kind: "pairs-contradict",
        one: { place: one },
        other: { place: other },
      });
  });

  test("for check points, neighbours that stretch a piece of the scale beyond twofold", () => {
    expect(reasonOf(() => unevenScale(points([1.01, 1.008], [1.013, 1.0165]), glass))).toMatchObject({
      kind: "pairs-contradict",
      one: { place: 0 },
      other: { place: 1 },
    });
  });

  test("for check points, neighbours between which the scale would run backwards", () => {
    expect(reasonOf(() => unevenScale(points([1.048, 1.05], [1.044, 1.051]), glass))).toMatchObject({
      kind: "pairs-contradict",
      one: { place: 0 },
      other: { place: 1 },
    });
  });
});

test("a hydrometer on either scale says the same of one sample", () => {
  const sg = slippedScale([checkPoint(1.048, 20, extractOfGravity(1.05), plainHydrometer)], plainHydrometer);
  const plato: Hydrometer = { ...plainHydrometer, scale: "P" };
  const p = slippedScale([checkPoint(extractOfGravity(1.048), 20, extractOfGravity(1.05), plato)], plato);
  expect(sg.numbers.shift).toBeCloseTo(0.002, 9);
  expect(gravityOfExtract(extractOfGravity(1.048) + p.numbers.shift)).toBeCloseTo(1.05, 9);
});
