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

describe("what cannot be fitted", () => {
  const line: Curve = (p) => (x) => (p[0] ?? NaN) + (p[1] ?? NaN) * x;

  test("gives no curve where nothing is finite", () => {
    expect(fitCurve({ x: [1, 2, 3], y: [1, NaN, 3] }, line, [1, 1])).toBeUndefined();
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
