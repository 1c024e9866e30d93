import { Matrix, QrDecomposition } from "ml-matrix";
import { constant, horner, scaled, type Expression } from "./expression.js";

/** A point at which a function is known. One or two coordinates. */
export interface Sample {
  readonly x: readonly number[];
  readonly y: number;
  /** Weight of an error here; 1 by default. */
  readonly weight?: number;
}

/** Interval of a variable. */
export interface Interval {
  readonly min: number;
  readonly max: number;
}

/** A term of a product of Chebyshev polynomials: the degree in each variable, and its coefficient. */
interface Term {
  readonly degrees: readonly number[];
  readonly coefficient: number;
}

/** Nodes within an interval, denser towards its ends, where polynomials go wrong first. */
export function chebyshevNodes({ min, max }: Interval, count: number): number[] {
  return Array.from(
    { length: count },
    (_, k) => (min + max) / 2 - ((max - min) / 2) * Math.cos((Math.PI * (k + 0.5)) / count),
  );
}

/** T₀ … Tₙ at a point from −1 to 1. */
function chebyshevValues(u: number, degree: number): number[] {
  const values = [1, u];
  for (let i = 2; i <= degree; i++) values.push(2 * u * (values[i - 1] ?? 0) - (values[i - 2] ?? 0));
  return values.slice(0, degree + 1);
}

/**
 * Centre and half-width of an interval in few digits, so that the formula is short; never narrower than the interval.
 */
function scaleOf({ min, max }: Interval): { readonly middle: number; readonly half: number } {
  const middle = Number(((min + max) / 2).toPrecision(4));
  const reach = Math.max(max - middle, middle - min);
  const digit = 10 ** (Math.floor(Math.log10(reach)) - 2);
  return { middle, half: Number((Math.ceil(reach / digit) * digit).toPrecision(3)) };
}

/**
 * Least-squares polynomial of a total degree, in Chebyshev products of its scaled variables; terms smaller than
 * `negligible` are left out.
 *
 * @param variables one or two
 * @param intervals of each variable
 */
export function fittedPolynomial(
  samples: readonly Sample[],
  variables: readonly Expression[],
  intervals: readonly Interval[],
  degree: number,
  negligible: number,
): Expression {
  const scales = intervals.map(scaleOf);
  const all = degreesUpTo(degree, variables.length);
  const design = samples.map(({ x, weight = 1 }) => {
    const values = scales.map(({ middle, half }, v) =>
      chebyshevValues(((x[v] ?? NaN) - middle) / half, degree),
    );
    return all.map((degrees) => degrees.reduce((product, d, v) => product * (values[v]?.[d] ?? 0), weight));
  });
  const targets = samples.map(({ y, weight = 1 }) => [y * weight]);
  const solution = new QrDecomposition(new Matrix(design)).solve(new Matrix(targets)).to1DArray();
  const terms = all
    .map((degrees, i): Term => ({ degrees, coefficient: solution[i] ?? 0 }))
    .filter(({ coefficient }) => Math.abs(coefficient) >= negligible);
  const decimals = Math.ceil(-Math.log10(negligible)) + 1;
  const powers = inPowers(terms, degree, variables.length).map((row) =>
    row.map((value) => Number(value.toFixed(decimals))),
  );
  const [first, second] = variables.map((variable, v) =>
    scaled(variable, scales[v]?.middle ?? 0, scales[v]?.half ?? 1),
  );
  if (!first) throw new RangeError("A polynomial needs a variable.");
  const rows = powers.map((row) => (second ? nested(row, second) : constant(row[0] ?? 0)));
  return horner(withoutZeros(rows), first);
}

function nested(row: readonly number[], x: Expression): Expression {
  const last = row.findLastIndex((value) => value !== 0);
  return last <= 0 ? constant(row[0] ?? 0) : horner(row.slice(0, last + 1).map(constant), x);
}

/** Drops the highest powers if their coefficients are zero. */
function withoutZeros(rows: readonly Expression[]): readonly Expression[] {
  const last = rows.findLastIndex((row) => row.write([]) !== "0");
  return rows.slice(0, Math.max(1, last + 1));
}

function degreesUpTo(degree: number, variables: number): number[][] {
  const one = Array.from({ length: degree + 1 }, (_, i) => i);
  return variables === 1
    ? one.map((i) => [i])
    : one.flatMap((i) => one.slice(0, degree + 1 - i).map((j) => [i, j]));
}

/** Coefficients by powers of the scaled variables, [power of the first][power of the second]. */
function inPowers(terms: readonly Term[], degree: number, variables: number): number[][] {
  const powers = chebyshevPowers(degree);
  const sums = Array.from({ length: degree + 1 }, () =>
    Array<number>(variables === 1 ? 1 : degree + 1).fill(0),
  );
  for (const { degrees, coefficient } of terms)
    for (const [i, a] of (powers[degrees[0] ?? 0] ?? []).entries())
      for (const [j, b] of (powers[degrees[1] ?? 0] ?? []).entries()) {
        const row = sums[i];
        if (row && j < row.length) row[j] = (row[j] ?? 0) + coefficient * a * b;
      }
  return sums;
}

/** Each Tₙ as coefficients of powers. */
function chebyshevPowers(degree: number): number[][] {
  const all = [[1], [0, 1]];
  for (let n = 2; n <= degree; n++) {
    const [before, last] = [all[n - 2] ?? [], all[n - 1] ?? []];
    all.push([0, ...last].map((c, i) => (i === 0 ? 0 : 2 * c) - (before[i] ?? 0)));
  }
  return all;
}
