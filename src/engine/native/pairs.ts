import { FormulaError, type Scalar } from "../values.js";
import { type Argument, cellsOf } from "./argument.js";
import { number } from "./convert.js";
import { alias, badValue, divisionByZero, type NativeFunction, notAvailable, ofArrays } from "./define.js";
import { mean, sumOfSquaredDeviations, total } from "./numbers.js";
import { single } from "./argument.js";

interface Pairs {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
}

/** Pairs of numbers in two lists; if one side is not a number, the pair is skipped. The first error is the result. */
function pairsOf(first: Argument, second: Argument): Pairs | FormulaError {
  const [a, b] = [cellsOf(first), cellsOf(second)];
  const error = [...a, ...b].find((value) => value instanceof FormulaError);
  if (error) return error;
  if (a.length !== b.length) return notAvailable;
  const both = a.flatMap((x, i) => {
    const y = b[i];
    return typeof x === "number" && typeof y === "number" ? [[x, y] as const] : [];
  });
  return { xs: both.map(([x]) => x), ys: both.map(([, y]) => y) };
}

function ofPairs(
  name: string,
  f: (xs: readonly number[], ys: readonly number[]) => Scalar,
  fewest = 1,
): NativeFunction {
  return ofArrays(name, [2, 2], (first, second) => {
    const pairs = pairsOf(first, second);
    if (pairs instanceof FormulaError) return pairs;
    return pairs.xs.length < fewest ? divisionByZero : f(pairs.xs, pairs.ys);
  });
}

function products(xs: readonly number[], ys: readonly number[]): number {
  const [mx, my] = [mean(xs), mean(ys)];
  return total(xs.map((x, i) => (x - mx) * ((ys[i] ?? 0) - my)));
}

const perhaps = (over: number, under: number): Scalar => (under === 0 ? divisionByZero : over / under);

/** Known ys come before known xs. */
function line(
  ys: readonly number[],
  xs: readonly number[],
): { slope: number; intercept: number } | undefined {
  const sumOfSquares = sumOfSquaredDeviations(xs);
  if (sumOfSquares === 0) return undefined;
  const slope = products(xs, ys) / sumOfSquares;
  return { slope, intercept: mean(ys) - slope * mean(xs) };
}

const correlation = (xs: readonly number[], ys: readonly number[]): Scalar =>
  perhaps(products(xs, ys), Math.sqrt(sumOfSquaredDeviations(xs) * sumOfSquaredDeviations(ys)));

function standardError(ys: readonly number[], xs: readonly number[]): Scalar {
  if (xs.length < 3 || sumOfSquaredDeviations(xs) === 0) return divisionByZero;
  const rest = sumOfSquaredDeviations(ys) - products(xs, ys) ** 2 / sumOfSquaredDeviations(xs);
  return Math.sqrt(Math.max(0, rest) / (xs.length - 2));
}

function forecast(at: Argument, ys: Argument, xs: Argument): Scalar {
  const x = number(single(at));
  if (x instanceof FormulaError) return x;
  const pairs = pairsOf(ys, xs);
  if (pairs instanceof FormulaError) return pairs;
  const fitted = pairs.xs.length === 0 ? undefined : line(pairs.xs, pairs.ys);
  return fitted ? fitted.intercept + fitted.slope * x : divisionByZero;
}

/** Sums over two lists of equal length; a pair with anything but numbers is skipped. */
function sumOver(name: string, f: (x: number, y: number) => number): NativeFunction {
  return ofArrays(name, [2, 2], (first, second) => {
    const pairs = pairsOf(first, second);
    if (pairs instanceof FormulaError) return pairs;
    return pairs.xs.length === 0 ? badValue : total(pairs.xs.map((x, i) => f(x, pairs.ys[i] ?? 0)));
  });
}

const correl = ofPairs("CORREL", correlation, 2);
const covariance = ofPairs("COVARIANCE.P", (xs, ys) => products(xs, ys) / xs.length);
const linear = ofArrays("FORECAST.LINEAR", [3, 3], forecast);

export const pairFunctions: readonly NativeFunction[] = [
  ofPairs("SLOPE", (ys, xs) => line(ys, xs)?.slope ?? divisionByZero),
  ofPairs("INTERCEPT", (ys, xs) => line(ys, xs)?.intercept ?? divisionByZero),
  correl,
  alias("PEARSON", correl),
  ofPairs(
    "RSQ",
    (ys, xs) => {
      const r = correlation(ys, xs);
      return typeof r === "number" ? r * r : r;
    },
    2,
  ),
  ofPairs("STEYX", standardError),
  covariance,
  alias("COVAR", covariance),
  ofPairs("COVARIANCE.S", (xs, ys) => products(xs, ys) / (xs.length - 1), 2),
  linear,
  alias("FORECAST", linear),
  sumOver("SUMX2MY2", (x, y) => x * x - y * y),
  sumOver("SUMX2PY2", (x, y) => x * x + y * y),
  sumOver("SUMXMY2", (x, y) => (x - y) ** 2),
];
