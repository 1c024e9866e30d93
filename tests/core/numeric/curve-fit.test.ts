import { describe, expect, test } from "vitest";
import { fitCurve, type Curve } from "../../../src/core/numeric/curve-fit.js";
import { figure, reference } from "../../support/reference.js";

// NIST Statistical Reference Datasets, nonlinear regression, higher level of difficulty: header lines of the tables. NIST
// certifies 11 digits; standard deviations of the parameters from memory.
interface Certified {
  readonly table: string;
  readonly curve: Curve;
  readonly starts: readonly (readonly number[])[];
  readonly parameters: readonly number[];
  readonly deviations: readonly number[];
  readonly residualSumOfSquares: number;
}

const four = (p: readonly number[]): [number, number, number, number] =>
  p as [number, number, number, number];

const certified: readonly Certified[] = [
  {
    table: "nist-strd-rat42",
    curve: (p) => {
      const [b1, b2, b3] = four(p);
      return (x) => b1 / (1 + Math.exp(b2 - b3 * x));
    },
    starts: [
      [100, 1, 0.1],
      [75, 2.5, 0.07],
    ],
    parameters: [7.2462237576e1, 2.6180768402, 6.7359200066e-2],
    deviations: [1.7340283401, 8.8295217536e-2, 3.4465663377e-3],
    residualSumOfSquares: 8.0565229338,
  },
  {
    table: "nist-strd-rat43",
    curve: (p) => {
      const [b1, b2, b3, b4] = four(p);
      return (x) => b1 / (1 + Math.exp(b2 - b3 * x)) ** (1 / b4);
    },
    starts: [
      [100, 10, 1, 1],
      [700, 5, 0.75, 1.3],
    ],
    parameters: [6.996415127e2, 5.2771253025, 7.5962938329e-1, 1.2792483859],
    deviations: [1.6302297817e1, 2.0828735829, 1.9566123451e-1, 6.8761936385e-1],
    residualSumOfSquares: 8.786404908e3,
  },
];

/** Digits that agree: minus the logarithm of the relative error, as NIST counts them. */
const digits = (value: number, certified: number): number =>
  value === certified ? 11 : -Math.log10(Math.abs(value / certified - 1));

describe("NIST's certified values, from the far and from the near start", () => {
  for (const { table, curve, starts, parameters, deviations, residualSumOfSquares } of certified)
    for (const start of starts)
      test(`${table} from ${start.join(", ")}`, () => {
        const rows = reference(table);
        const points = { x: rows.map((row) => figure(row, "x")), y: rows.map((row) => figure(row, "y")) };
        const fit = fitCurve(points, curve, start);
        // The digits that it reaches. Derivatives are numeric, which costs some in the deviations.
        parameters.forEach((value, i) => {
          expect(digits(fit?.parameters[i] ?? NaN, value)).toBeGreaterThan(9);
          expect(digits(fit?.standardError((p) => p[i] ?? NaN) ?? NaN, deviations[i] ?? NaN)).toBeGreaterThan(
            8,
          );
        });
        expect(digits(fit?.residualSumOfSquares ?? NaN, residualSumOfSquares)).toBeGreaterThan(10);
      });
});

test("a fit is the same in whatever unit its points are", () => {
  const { table, curve, starts, parameters, residualSumOfSquares } = certified[1] as Certified;
  const rows = reference(table);
  const x = rows.map((row) => figure(row, "x"));
  // Powers of two round alike: from the far start the way there hangs on the last digit.
  for (const unit of [2 ** -14, 2 ** 14]) {
    const y = rows.map((row) => unit * figure(row, "y"));
    for (const [first = NaN, ...rest] of starts) {
      const fit = fitCurve({ x, y }, curve, [unit * first, ...rest]);
      expect(digits((fit?.parameters[0] ?? NaN) / unit, parameters[0] ?? NaN)).toBeGreaterThan(9);
      expect(digits((fit?.residualSumOfSquares ?? NaN) / unit ** 2, residualSumOfSquares)).toBeGreaterThan(
        10,
      );
    }
  }
});

describe("what cannot be fitted", () => {
  const line: Curve = (p) => (x) => (p[0] ?? NaN) + (p[1] ?? NaN) * x;

  test("gives no curve where nothing is finite", () => {
    expect(fitCurve({ x: [1, 2, 3], y: [1, NaN, 3] }, line, [1, 1])).toBeUndefined();
  });

  test("is given up soon where nothing is finite", () => {
    let looks = 0;
    const watched: Curve = (p) => {
      looks += 1;
      return line(p);
    };
    expect(fitCurve({ x: [1, 2, 3], y: [1, NaN, 3] }, watched, [1, 1])).toBeUndefined();
    expect(looks).toBeLessThan(60);
  });

  test("has no standard error where a single point is all there is, or what is asked for is no number", () => {
    expect(fitCurve({ x: [1], y: [2] }, line, [1, 1])?.standardError((p) => p[1] ?? NaN)).toBe(Infinity);
    const fit = fitCurve({ x: [1, 2, 3], y: [1, 2, 4] }, line, [1, 1]);
    expect(fit?.standardError(() => NaN)).toBe(Infinity);
  });

  test("leaves open what the points leave open", () => {
    const fit = fitCurve({ x: [1, 1, 1], y: [1, 2, 3] }, line, [1, 1]);
    expect(fit?.at(1)).toBeCloseTo(2, 9);
    expect(fit?.standardError((p) => p[1] ?? NaN)).toBe(Infinity);
    expect(fitCurve({ x: [1, 2], y: [1, 2] }, line, [1, 1])?.standardError((p) => p[0] ?? NaN)).toBe(
      Infinity,
    );
  });
});

describe("a decay that is begun far away", () => {
  let looks = 0;
  const decay: Curve = (p) => {
    looks += 1;
    return (x) => (p[0] ?? NaN) * Math.exp(-(p[1] ?? NaN) * x);
  };
  const x = [0, 1, 2, 3, 4, 5, 6, 7];
  const y = [10.1, 6.5, 4.64, 3.06, 1.92, 1.47, 0.84, 0.56];

  test.each([
    [1, 1],
    [5, 3],
    [10, 0.01],
    [0.1, 0.1],
    [100, 2],
  ])("is never fitted worse than where it began, from %f and %f, and given up soon", (...start) => {
    const begun = decay(start);
    const residualSumOfSquares = y.reduce((sum, each, i) => sum + (each - begun(x[i] ?? NaN)) ** 2, 0);
    looks = 0;
    expect(fitCurve({ x, y }, decay, start)?.residualSumOfSquares).toBeLessThanOrEqual(residualSumOfSquares);
    expect(looks).toBeLessThan(600);
  });
});

// Of a straight line, textbooks have everything in closed form.
describe("a straight line", () => {
  let looks = 0;
  const line: Curve = (p) => {
    looks += 1;
    return (x) => (p[0] ?? NaN) + (p[1] ?? NaN) * x;
  };
  const x = [0, 1, 2, 3, 4, 5, 6, 7.5];
  const y = [3.1, 4.8, 7.15, 9.05, 10.9, 13.12, 14.93, 17.9];
  const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
  const [meanX, meanY] = [mean(x), mean(y)];
  const spread = x.reduce((sum, each) => sum + (each - meanX) ** 2, 0);
  const slope = x.reduce((sum, each, i) => sum + (each - meanX) * ((y[i] ?? NaN) - meanY), 0) / spread;
  const residualSumOfSquares = y.reduce(
    (sum, each, i) => sum + (each - meanY - slope * ((x[i] ?? NaN) - meanX)) ** 2,
    0,
  );
  const deviation = Math.sqrt(residualSumOfSquares / (x.length - 2));

  test.each([
    [1, 1],
    [3, 2],
    [-50, 1e-3],
    [1e4, -300],
  ])("from %f and %f is that of the textbook, with its standard errors", (...start) => {
    const fit = fitCurve({ x, y }, line, start);
    expect(digits(fit?.parameters[1] ?? NaN, slope)).toBeGreaterThan(7);
    expect(digits(fit?.at(10) ?? NaN, meanY + slope * (10 - meanX))).toBeGreaterThan(7);
    expect(digits(fit?.residualSumOfSquares ?? NaN, residualSumOfSquares)).toBeGreaterThan(9);
    expect(
      digits(fit?.standardError((p) => p[1] ?? NaN) ?? NaN, deviation / Math.sqrt(spread)),
    ).toBeGreaterThan(6);
    // Of a point of the line, far outside of the readings.
    const ofPoint = deviation * Math.sqrt(1 / x.length + (10 - meanX) ** 2 / spread);
    expect(digits(fit?.standardError((p) => line(p)(10)) ?? NaN, ofPoint)).toBeGreaterThan(6);
  });

  test("is told by three points, with one degree of freedom", () => {
    // Through 0, 1 and 5 at 0, 1 and 2: the slope is 2.5, and 0.5, −1 and 0.5 are left.
    const fit = fitCurve({ x: [0, 1, 2], y: [0, 1, 5] }, line, [1, 1]);
    expect(fit?.parameters[1]).toBeCloseTo(2.5, 7);
    expect(fit?.residualSumOfSquares).toBeCloseTo(1.5, 9);
    expect(fit?.standardError((p) => p[1] ?? NaN)).toBeCloseTo(Math.sqrt(1.5 / 2), 6);
  });

  test("through the origin has standard errors too, though its first parameter is nothing", () => {
    // The readings add up to 0 at −1, 0 and 1: the slope is 0.75, and −0.25, 0.5 and −0.25 are left.
    const fit = fitCurve({ x: [-1, 0, 1], y: [-1, 0.5, 0.5] }, line, [1, 1]);
    expect(fit?.standardError((p) => p[1] ?? NaN)).toBeCloseTo(Math.sqrt(0.375 / 2), 6);
    expect(fit?.standardError((p) => p[0] ?? NaN)).toBeCloseTo(Math.sqrt(0.375 / 3), 6);
  });

  test("may be level, and may pass through every point", () => {
    const level = fitCurve({ x, y: x.map(() => 5) }, line, [1, 1]);
    expect(level?.at(3)).toBeCloseTo(5, 12);
    const exact = fitCurve({ x, y: x.map((each) => 3 + 2 * each) }, line, [1, 1]);
    expect([exact?.at(0), exact?.at(10)]).toEqual([expect.closeTo(3, 9), expect.closeTo(23, 9)]);
    expect(exact?.standardError((p) => p[1] ?? NaN)).toBeCloseTo(0, 9);
  });

  test("that begins where it ends takes one round", () => {
    looks = 0;
    fitCurve({ x, y: x.map((each) => 3 + 2 * each) }, line, [3, 2]);
    expect(looks).toBeLessThan(40); // of which a round that gains nothing takes 34
  });

  test("is found in a few rounds, and no more are gone once nothing is gained", () => {
    for (const start of [
      [1, 1],
      [3, 2],
    ]) {
      looks = 0;
      fitCurve({ x, y }, line, start);
      expect(looks).toBeLessThan(700); // a round of 25 iterations takes 150, and there could be twenty
    }
  });
});
