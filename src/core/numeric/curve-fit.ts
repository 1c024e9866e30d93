import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { inverse, Matrix } from "ml-matrix";
import { valueAt } from "./value-at.js";

/** A function of one variable with parameters. */
export type Curve = (parameters: readonly number[]) => (x: number) => number;

export interface Points {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** A least-squares fit of a curve. */
export interface FittedCurve {
  readonly parameters: readonly number[];
  /** Residual sum of squares. */
  readonly residualSumOfSquares: number;
  readonly at: (x: number) => number;
  /**
   * Standard error of any function of the parameters, by first-order propagation of their covariance. Infinite if the
   * points do not determine it.
   */
  readonly standardError: (of: (parameters: readonly number[]) => number) => number;
}

/** The library always runs all the iterations asked for, so it is called in rounds. */
const ROUND = 25;
const ROUNDS = 20;
/** Relative improvement of the residual sum of squares below which the fit has converged. */
const CONVERGED = 1e-13;
/** Damping of a round's first step. If a step fails, it is tried again with more damping, which shortens it. */
const FIRST_DAMPING = 1e-3;
const MORE_DAMPING = 30;
const MAX_DAMPING = 1e4;
/**
 * Relative step of central differences: the cube root of the machine epsilon. Relative to a parameter or its initial
 * value, whichever is larger.
 */
const STEP = 6e-6;

/** Parameters, with their initial values, which give their scale. */
interface Parameters {
  readonly parameters: readonly number[];
  readonly start: readonly number[];
}

function sumOfSquares({ x, y }: Points, at: (x: number) => number): number {
  return y.reduce((sum, value, i) => sum + (value - at(valueAt(x, i))) ** 2, 0);
}

/** Gradient by central differences. */
function gradient(
  of: (parameters: readonly number[]) => number,
  { parameters, start }: Parameters,
): number[] {
  return parameters.map((value, i) => {
    const step = STEP * Math.max(Math.abs(value), Math.abs(valueAt(start, i)));
    // Stryker disable next-line ArithmeticOperator: the other way about, all slopes change sign, and a variance is their square
    const moved = (by: number): number[] => parameters.map((each, j) => (j === i ? each + by : each));
    const rise = of(moved(step)) - of(moved(-step));
    // Stryker disable next-line ArithmeticOperator: a variance is the same in whatever unit its parameters are
    return rise / (2 * step);
  });
}

/**
 * Least squares by the Levenberg–Marquardt method (the library ml-levenberg-marquardt), from one initial guess.
 *
 * The library damps all parameters equally, so they are scaled by their initial values, and y by its range.
 *
 * @param start initial values, none of them 0
 * @returns undefined if no finite curve is found
 */
export function fitCurve(points: Points, curve: Curve, start: readonly number[]): FittedCurve | undefined {
  const range = Math.max(...points.y) - Math.min(...points.y) || 1;
  const data = { x: [...points.x], y: points.y.map((value) => value / range) };
  const unscaled = (shares: readonly number[]): number[] =>
    start.map((value, i) => value * valueAt(shares, i));
  const scaledCurve = (shares: number[]) => {
    const at = curve(unscaled(shares));
    return (x: number) => at(x) / range;
  };
  let shares = start.map(() => 1);
  let residualSumOfSquares = sumOfSquares(points, curve(start));
  let damping = FIRST_DAMPING;
  for (let round = 0; round < ROUNDS; round++) {
    const found = improved(data, scaledCurve, shares, damping);
    const next = found ? sumOfSquares(points, curve(unscaled(found))) : NaN;
    const gained = residualSumOfSquares - next;
    if (found && gained > 0) [shares, residualSumOfSquares] = [found, next];
    if (gained >= 0 && gained <= CONVERGED * residualSumOfSquares) break;
    damping = gained > 0 ? FIRST_DAMPING : damping * MORE_DAMPING;
    if (damping > MAX_DAMPING) break;
  }
  return Number.isFinite(residualSumOfSquares)
    ? described(points, curve, { parameters: unscaled(shares), start }, residualSumOfSquares)
    : undefined;
}

/** One round of the library; undefined if it meets a singular matrix. */
function improved(
  data: { x: number[]; y: number[] },
  curve: (shares: number[]) => (x: number) => number,
  initialValues: number[],
  damping: number,
): number[] | undefined {
  const round = {
    initialValues,
    damping,
    maxIterations: ROUND,
    errorTolerance: 0,
    centralDifference: true,
    gradientDifference: initialValues.map((share) => STEP * Math.max(Math.abs(share), 1)),
  };
  return unlessSingular(() => levenbergMarquardt(data, curve, round).parameterValues);
}

function described(
  points: Points,
  curve: Curve,
  found: Parameters,
  residualSumOfSquares: number,
): FittedCurve {
  const covariance = covarianceOf(points, curve, found, residualSumOfSquares);
  return {
    parameters: found.parameters,
    residualSumOfSquares,
    at: curve(found.parameters),
    standardError: (of) => {
      if (!covariance) return Infinity;
      const row = Matrix.rowVector(gradient(of, found));
      const variance = row.mmul(covariance).mmul(row.transpose()).get(0, 0);
      return variance >= 0 ? Math.sqrt(variance) : Infinity;
    },
  };
}

/** s²·(JᵀJ)⁻¹; undefined if the points do not determine a parameter, or leave no degrees of freedom. */
function covarianceOf(
  { x }: Points,
  curve: Curve,
  found: Parameters,
  residualSumOfSquares: number,
): Matrix | undefined {
  const degreesOfFreedom = x.length - found.parameters.length;
  if (degreesOfFreedom < 1) return undefined;
  const jacobian = new Matrix(x.map((each) => gradient((p) => curve(p)(each), found)));
  return unlessSingular(() =>
    inverse(jacobian.transpose().mmul(jacobian)).mul(residualSumOfSquares / degreesOfFreedom),
  );
}

/** The result of a library, or undefined if it meets a singular matrix. */
function unlessSingular<T>(work: () => T): T | undefined {
  try {
    return work();
    // Stryker disable next-line BlockStatement: an empty block returns undefined too
  } catch {
    return undefined;
  }
}
