import { chebyshevNodes, fittedPolynomial, type Interval, type Sample } from "./chebyshev-fit.js";
import { edgeOf } from "./domain-edge.js";
import { domainOf } from "./domain.js";
import { atLeast, combined, constant, input, type InputCondition, type Expression } from "./expression.js";
import { validSpan } from "./valid-span.js";

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
  /** A factor by which the function vanishes or grows; without it, the rest is smoother. */
  readonly factor?: Expression;
  /** Tolerance of the edges, in units of the last variable. */
  readonly edge?: number;
}

/** The degree stops rising when the error is below this share of the tolerance. */
const MARGIN = 0.4;
const HIGHEST = { one: 16, two: 9 };

const shortened = (value: number): number => Number(value.toPrecision(10));

/**
 * @param interval where the function may answer at most. @returns undefined if the tolerance cannot be met, or the
 *   function never answers
 */
export function fitOne(results: Results, interval: Interval, wanted: Wanted): SmoothFit | undefined {
  const answers = (places: readonly number[]): boolean[] =>
    results(places.map((x) => [x])).map((y) => y !== undefined);
  const span = validSpan(answers, interval);
  if (!span) return undefined;
  const samplesAt = (count: number): Sample[] => {
    const places = chebyshevNodes(span, count).map((x) => [x]);
    return samplesOf(results, places, (place) => place, wanted.factor);
  };
  const x = input(0);
  const result = growing(HIGHEST.one, wanted, samplesAt, 100, [x], [span]);
  return (
    result && {
      result,
      conditions: [atLeast(x, constant(shortened(span.min))), atLeast(constant(shortened(span.max)), x)],
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
  const samplesAt = (count: number): Sample[] => {
    const places = chebyshevNodes(domain.x, count).flatMap((at) => {
      const span = domain.spanAt(at);
      return span ? chebyshevNodes(span, count).map((each) => [at, each]) : [];
    });
    // The polynomial has y first: y is longer to write, and appears less often that way.
    return samplesOf(results, places, ([a = NaN, b = NaN]) => [b, a], wanted.factor);
  };
  const intervals = [domain.y, domain.x];
  const result = growing(HIGHEST.two, wanted, samplesAt, 36, [input(1), input(0)], intervals);
  if (!result) return undefined;
  const tolerance = wanted.edge ?? (domain.y.max - domain.y.min) * 1e-4;
  return {
    result,
    conditions: [
      atLeast(input(0), constant(shortened(domain.x.min))),
      atLeast(constant(shortened(domain.x.max)), input(0)),
      atLeast(input(1), edgeOf(domain, "min", input(0), tolerance)),
      atLeast(edgeOf(domain, "max", input(0), tolerance), input(1)),
    ],
  };
}

/** Samples for the polynomial: divided by the factor, and weighted by it, so that errors count as in the result. */
function samplesOf(
  results: Results,
  places: readonly (readonly number[])[],
  ordered: (place: readonly number[]) => readonly number[],
  factor: Expression | undefined,
): Sample[] {
  const values = results(places);
  return places.flatMap((place, i) => {
    const value = values[i];
    const by = factor?.at(place) ?? 1;
    if (value === undefined || by === 0) return [];
    return { x: ordered(place), y: value / by, weight: Math.abs(by) };
  });
}

/** Raises the degree until the error is small enough everywhere, on more points than were fitted. */
function growing(
  highest: number,
  { tolerance, factor }: Wanted,
  samplesAt: (count: number) => Sample[],
  denser: number,
  variables: readonly Expression[],
  intervals: readonly Interval[],
): Expression | undefined {
  const dense = samplesAt(denser);
  const fitted = samplesAt(2 * highest + 2);
  const largest = Math.max(...fitted.map(({ weight = 1 }) => weight));
  let best: { readonly worst: number; readonly polynomial: Expression } | undefined;
  for (let degree = 1; degree <= highest; degree++) {
    const polynomial = fittedPolynomial(fitted, variables, intervals, degree, tolerance / largest / 100);
    const worst = Math.max(
      ...dense.map(({ x, y, weight = 1 }) => {
        // Expressions take the inputs in their own order, x before y.
        const inputs = x.length === 2 ? [x[1] ?? NaN, x[0] ?? NaN] : x;
        return Math.abs(polynomial.at(inputs) - y) * weight;
      }),
    );
    if (!best || worst < best.worst) best = { worst, polynomial };
    if (worst <= tolerance * MARGIN) break;
  }
  if (!best || !(best.worst <= tolerance)) return undefined;
  return factor ? combined(factor, "*", best.polynomial) : best.polynomial;
}
