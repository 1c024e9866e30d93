import { Matrix, QrDecomposition } from "ml-matrix";
import type { Interval } from "./interval.js";
import { scaleOf, type Coefficients, type VariableScale } from "./polynomial.js";

/** A point at which a function is known. One or two coordinates. */
export interface Sample {
  readonly x: readonly number[];
  readonly y: number;
  /** Weight of an error here; 1 by default. */
  readonly weight?: number;
}

/** T₀ … Tₙ at a point from −1 to 1. */
function chebyshevValues(u: number, degree: number): number[] {
  const values = [1, u];
  for (let i = 2; i <= degree; i++) values.push(2 * u * (values[i - 1] ?? 0) - (values[i - 2] ?? 0));
  return values.slice(0, degree + 1);
}

/**
 * Least-squares polynomial of a total degree. It is found in Chebyshev products, which keeps the equations well
 * conditioned, and told in powers.
 *
 * @param intervals of each variable, one or two
 * @param negligible amount to which coefficients are rounded
 */
export function fittedPolynomial(
  samples: readonly Sample[],
  intervals: readonly Interval[],
  degree: number,
  negligible: number,
): Coefficients {
  const all = degreesUpTo(degree, intervals.length);
  const design = samples.map(({ x, weight = 1 }) => {
    const values = intervals.map(({ min, max }, v) =>
      chebyshevValues((2 * (x[v] ?? NaN) - min - max) / (max - min), degree),
    );
    return all.map((degrees) => degrees.reduce((product, d, v) => product * (values[v]?.[d] ?? 0), weight));
  });
  const targets = samples.map(({ y, weight = 1 }) => [y * weight]);
  const solution = new QrDecomposition(new Matrix(design)).solve(new Matrix(targets)).to1DArray();
  const scales = intervals.map(scaleOf);
  const powers = intervals.map((interval, v) =>
    chebyshevPowers(degree, interval, scales[v] as VariableScale),
  );
  const rows = Array.from({ length: intervals.length === 1 ? 1 : degree + 1 }, () =>
    Array<number>(degree + 1).fill(0),
  );
  for (const [k, [i = 0, j = 0]] of all.entries())
    for (const [b, down] of (powers[1]?.[j] ?? [1]).entries())
      for (const [a, across] of (powers[0]?.[i] ?? []).entries()) {
        const row = rows[b] as number[];
        row[a] = (row[a] ?? 0) + (solution[k] ?? 0) * across * down;
      }
  const decimals = Math.max(0, Math.ceil(-Math.log10(negligible)) + 1);
  return { rows: rows.map((row) => row.map((value) => Number(value.toFixed(decimals)))), scales };
}

function degreesUpTo(degree: number, variables: number): number[][] {
  const one = Array.from({ length: degree + 1 }, (_, i) => i);
  return variables === 1
    ? one.map((i) => [i])
    : one.flatMap((i) => one.slice(0, degree + 1 - i).map((j) => [i, j]));
}

/** Each Tₙ of an interval as coefficients of powers of the variable on its scale. */
function chebyshevPowers(
  degree: number,
  { min, max }: Interval,
  { factor, offset }: VariableScale,
): number[][] {
  const half = (factor * (max - min)) / 2;
  const middle = (factor * (min + max)) / 2 + offset;
  const timesPoint = (row: readonly number[]): number[] =>
    [0, ...row].map((c, i) => (c - middle * (row[i] ?? 0)) / half);
  const all = [[1], timesPoint([1])];
  for (let n = 2; n <= degree; n++) {
    const [before, last] = [all[n - 2] ?? [], all[n - 1] ?? []];
    all.push(timesPoint(last).map((c, i) => 2 * c - (before[i] ?? 0)));
  }
  return all;
}
