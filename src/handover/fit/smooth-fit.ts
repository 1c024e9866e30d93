import { fittedPolynomial, type Sample } from "./chebyshev-fit.js";
import { edgeOf } from "./domain-edge.js";
import { domainOf } from "./domain.js";
import {
  atLeast,
  between,
  combined,
  constant,
  input,
  type InputCondition,
  type Expression,
} from "./expression.js";
import { chebyshevNodes, type Interval } from "./interval.js";
import { polynomialFormula, polynomialValue, type Coefficients } from "./polynomial.js";
import { shortBound, validSpan } from "./valid-span.js";

/** Results of a function at points, each with a number for each variable; undefined where it refuses. */
export type Results = (places: readonly (readonly number[])[]) => readonly (number | undefined)[];

/** A function as polynomials: its domain, and its values. */
export interface SmoothFit {
  readonly result: Expression;
  readonly conditions: readonly InputCondition[];
}

/** Requirements on a fit. */
export interface Wanted {
  /** Largest error allowed anywhere. */
  readonly tolerance: number;
  /** Where this is 0 the function has a pole; times this, it is smooth. */
  readonly divisor?: Expression;
  /** Tolerance of the edges, in units of the last variable. */
  readonly edge?: number;
  /** What it gives, and the names of its variables, for the sheet with the coefficients. */
  readonly title: string;
  readonly names: readonly string[];
}

/** The degree stops rising when the error is below this share of the tolerance. */
const MARGIN = 0.4;
const HIGHEST = { one: 16, two: 9 };

/**
 * @param interval where the function may answer at most. @returns undefined if the tolerance cannot be met, or the
 *   function never answers
 */
export function fitOne(results: Results, interval: Interval, wanted: Wanted): SmoothFit | undefined {
  const answers = (places: readonly number[]): boolean[] =>
    results(places.map((x) => [x])).map((y) => y !== undefined);
  const span = validSpan(answers, interval);
  if (!span) return undefined;
  const samples = (count: number): Sample[] =>
    samplesOf(
      results,
      chebyshevNodes(span, count).map((x) => [x]),
      wanted.divisor,
    );
  const result = growing(HIGHEST.one, wanted, samples(2 * HIGHEST.one + 2), samples(101), [span]);
  const x = input(0);
  return (
    result && {
      result,
      conditions: [
        atLeast(x, constant(shortBound(span.min, "min", span))),
        atLeast(constant(shortBound(span.max, "max", span)), x),
      ],
    }
  );
}

/**
 * @param x interval of the first input
 * @param y interval of the second, whose bounds depend on the first
 * @returns undefined if the tolerance cannot be met, or the function never answers
 */
export function fitTwo(results: Results, x: Interval, y: Interval, wanted: Wanted): SmoothFit | undefined {
  const answersAt = (at: number) => (places: readonly number[]) =>
    results(places.map((each) => [at, each])).map((value) => value !== undefined);
  const domain = domainOf(answersAt, x, y);
  if (!domain) return undefined;
  // Every second node is fitted, the others are compared.
  const [fitted, dense] = [0, 1].map((odd) => {
    const nodes = domain.nodes.filter((_, i) => i % 2 === odd);
    const places = nodes.flatMap((at) => {
      const span = domain.spanAt(at);
      return span ? chebyshevNodes(span, nodes.length + odd).map((each) => [at, each]) : [];
    });
    return samplesOf(results, places, wanted.divisor);
  });
  const result = growing(HIGHEST.two, wanted, fitted ?? [], dense ?? [], [domain.x, domain.y]);
  if (!result) return undefined;
  const tolerance = wanted.edge ?? (domain.y.max - domain.y.min) * 1e-4;
  return {
    result,
    conditions: [
      between(input(0), shortBound(domain.x.min, "min", domain.x), shortBound(domain.x.max, "max", domain.x)),
      atLeast(input(1), edgeOf(domain, "min", input(0), tolerance, wanted.names)),
      atLeast(edgeOf(domain, "max", input(0), tolerance, wanted.names), input(1)),
    ],
  };
}

/** Samples for the polynomial: times the divisor, and weighted by it, so that errors count as in the result. */
function samplesOf(
  results: Results,
  places: readonly (readonly number[])[],
  divisor: Expression | undefined,
): Sample[] {
  const values = results(places);
  return places.flatMap((x, i) => {
    const value = values[i];
    const by = divisor?.at(x) ?? 1;
    return value === undefined || by === 0 ? [] : { x, y: value * by, weight: 1 / Math.abs(by) };
  });
}

/** Raises the degree until the error is small enough everywhere, on more points than were fitted. */
function growing(
  highest: number,
  { tolerance, divisor, title, names }: Wanted,
  fitted: readonly Sample[],
  dense: readonly Sample[],
  intervals: readonly Interval[],
): Expression | undefined {
  const largest = Math.max(...fitted.map(({ weight = 1 }) => weight));
  let best: { readonly worst: number; readonly coefficients: Coefficients } | undefined;
  for (let degree = 1; degree <= highest; degree++) {
    const coefficients = fittedPolynomial(fitted, intervals, degree, tolerance / largest / 100);
    const worst = Math.max(
      ...dense.map(({ x, y, weight = 1 }) => Math.abs(polynomialValue(coefficients, x) - y) * weight),
    );
    if (!best || worst < best.worst) best = { worst, coefficients };
    if (worst <= tolerance * MARGIN) break;
  }
  if (!best || !(best.worst <= tolerance)) return undefined;
  const result = polynomialFormula(best.coefficients, names, { title, worst: best.worst });
  return divisor ? combined(result, "/", divisor) : result;
}
