import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { inverse, Matrix } from "ml-matrix";
import { valueAt } from "./value-at.js";

/** A curve with parameters, of one variable. */
export type Curve = (parameters: readonly number[]) => (x: number) => number;

export interface Points {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** A curve laid through points by least squares. */
export interface FittedCurve {
  readonly parameters: readonly number[];
  /** Sum of the squared residuals. */
  readonly squares: number;
  readonly at: (x: number) => number;
  /**
   * Standard error of anything worked out from the parameters, by first-order propagation of their covariance. Infinite
   * where the points do not determine it.
   */
  readonly standardError: (of: (parameters: readonly number[]) => number) => number;
}

/** The library goes on for as many iterations as it is told, so it gets them in rounds. */
const ROUND = 25;
const ROUNDS = 20;
/** A round that improves the sum of squares by less than this share of it was the last. */
const SETTLED = 1e-13;
/** Damping of a round's first step; one that led nowhere is tried again with more, which makes its steps shorter. */
const FIRST_DAMPING = 1e-3;
const MORE_DAMPING = 30;
const MOST_DAMPING = 1e4;
/**
 * Step of numeric derivatives, as a share of a parameter or of what it began as, whichever is more: the cube root of what a
 * number resolves, for central ones.
 */
const STEP = 6e-6;

/** Parameters, and where their fit began, which tells how large they are. */
interface Parameters {
  readonly parameters: readonly number[];
  readonly start: readonly number[];
}

function sumOfSquares({ x, y }: Points, at: (x: number) => number): number {
  return y.reduce((sum, value, i) => sum + (value - at(valueAt(x, i))) ** 2, 0);
}

/** Central differences of a number that depends on the parameters. */
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
 * Least squares by Levenberg and Marquardt's method (the library ml-levenberg-marquardt), from one starting point.
 *
 * The library damps all parameters alike, so they are fitted as multiples of their starting values, and y as a multiple of
 * its own extent.
 *
 * @param start none of them 0
 * @returns undefined where no finite curve is found
 */
export function fitCurve(points: Points, curve: Curve, start: readonly number[]): FittedCurve | undefined {
  const extent = Math.max(...points.y) - Math.min(...points.y) || 1;
  const data = { x: [...points.x], y: points.y.map((value) => value / extent) };
  const unscaled = (shares: readonly number[]): number[] =>
    start.map((value, i) => value * valueAt(shares, i));
  const scaledCurve = (shares: number[]) => {
    const at = curve(unscaled(shares));
    return (x: number) => at(x) / extent;
  };
  let shares = start.map(() => 1);
  let squares = sumOfSquares(points, curve(start));
  let damping = FIRST_DAMPING;
  for (let round = 0; round < ROUNDS; round++) {
    const found = improved(data, scaledCurve, shares, damping);
    const next = found ? sumOfSquares(points, curve(unscaled(found))) : NaN;
    const gained = squares - next;
    if (found && gained > 0) [shares, squares] = [found, next];
    if (gained >= 0 && gained <= SETTLED * squares) break;
    damping = gained > 0 ? FIRST_DAMPING : damping * MORE_DAMPING;
    if (damping > MOST_DAMPING) break;
  }
  return Number.isFinite(squares)
    ? described(points, curve, { parameters: unscaled(shares), start }, squares)
    : undefined;
}

/** One round of the library; undefined where it meets a matrix that it cannot solve. */
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

function described(points: Points, curve: Curve, found: Parameters, squares: number): FittedCurve {
  const covariance = covarianceOf(points, curve, found, squares);
  return {
    parameters: found.parameters,
    squares,
    at: curve(found.parameters),
    standardError: (of) => {
      if (!covariance) return Infinity;
      const row = Matrix.rowVector(gradient(of, found));
      const variance = row.mmul(covariance).mmul(row.transpose()).get(0, 0);
      return variance >= 0 ? Math.sqrt(variance) : Infinity;
    },
  };
}

/** s²·(JᵀJ)⁻¹; undefined where the points leave a parameter open, or no freedom over. */
function covarianceOf({ x }: Points, curve: Curve, found: Parameters, squares: number): Matrix | undefined {
  const freedom = x.length - found.parameters.length;
  if (freedom < 1) return undefined;
  const jacobian = new Matrix(x.map((each) => gradient((p) => curve(p)(each), found)));
  return unlessSingular(() => inverse(jacobian.transpose().mmul(jacobian)).mul(squares / freedom));
}

/** What a library works out, or undefined where it meets a matrix that it cannot solve. */
function unlessSingular<T>(work: () => T): T | undefined {
  try {
    return work();
    // Stryker disable next-line BlockStatement: undefined is what comes of nothing, too
  } catch {
    return undefined;
  }
}
