import { chebyshevNodes, fittedPolynomial, type Interval } from "./chebyshev-fit.js";
import type { Domain } from "./domain.js";
import { constant, piecewise, type Expression } from "./expression.js";
import { GRID, grid, validSpan, type Answers } from "./valid-span.js";

const EDGE_DEGREES = 8;
/**
 * One edge of a domain as an expression of x: a polynomial where the edge is curved and a number where it is not,
 * always on the inner side.
 *
 * @param tolerance how far inside it may be, if possible
 */
export function edgeOf(
  { x, y, spanAt }: Domain,
  side: "min" | "max",
  variable: Expression,
  tolerance: number,
): Expression {
  const bound = y[side];
  const inwards = side === "min" ? 1 : -1;
  const edgeAt = (at: number): number => spanAt(at)?.[side] ?? bound;
  const isCurved: Answers = (places) => places.map((at) => Math.abs(edgeAt(at) - bound) > tolerance / 4);
  // At the very ends the function may or may not answer, because of rounding.
  const slack = (x.max - x.min) * 1e-6;
  // The point where an edge begins to curve need not be known more exactly.
  const curved = validSpan(isCurved, { min: x.min + slack, max: x.max - slack }, slack);
  if (!curved) return constant(bound);
  const [fromStart, toEnd] = [curved.min <= x.min + 2 * slack, curved.max >= x.max - 2 * slack];
  const fitOn = fromStart || toEnd ? curved : x;
  const polynomial = inwardPolynomial(edgeAt, fitOn, variable, tolerance, inwards);
  if ((fromStart && toEnd) || fitOn === x) return polynomial;
  return fromStart
    ? piecewise(variable, shortened(curved.max), polynomial, constant(bound))
    : piecewise(variable, shortened(curved.min), constant(bound), polynomial);
}

const shortened = (value: number): number => Number(value.toPrecision(7));

/**
 * Raises the degree until the tolerance is met, then shifts the polynomial inwards by its largest error. An edge with a
 * corner, where another bound takes over, is split there.
 */
function inwardPolynomial(
  edgeAt: (x: number) => number,
  interval: Interval,
  variable: Expression,
  tolerance: number,
  inwards: 1 | -1,
  mayDivide = true,
): Expression {
  const nodes = chebyshevNodes(interval, 2 * EDGE_DEGREES).map((x) => [x, edgeAt(x)] as const);
  const dense = chebyshevNodes(interval, 5 * EDGE_DEGREES).map((x) => [x, edgeAt(x)] as const);
  const fit = (degree: number, shift: number): Expression => {
    const samples = nodes.map(([x, y]) => ({ x: [x], y: y + inwards * shift }));
    return fittedPolynomial(samples, [variable], [interval], degree, tolerance / 100);
  };
  for (let degree = 1; ; degree++) {
    const curve = fit(degree, 0);
    const worst = Math.max(...dense.map(([x, y]) => Math.abs(y - curve.at([x, x]))));
    if (worst <= tolerance / 2) return fit(degree, worst);
    if (degree < EDGE_DEGREES) continue;
    if (!mayDivide) return fit(degree, worst);
    const corner = shortened(cornerOf(edgeAt, interval));
    const side = (part: Interval): Expression =>
      inwardPolynomial(edgeAt, part, variable, tolerance, inwards, false);
    const below = side({ min: interval.min, max: corner });
    return piecewise(variable, corner, below, side({ min: corner, max: interval.max }));
  }
}

const CORNER_ROUNDS = 6;

/** Where a curve bends most. */
function cornerOf(edgeAt: (x: number) => number, { min, max }: Interval): number {
  let [from, to] = [min, max];
  for (let round = 0; round < CORNER_ROUNDS; round++) {
    const places = grid(from, to, GRID / 2);
    const values = places.map(edgeAt);
    const bends = values.map((value, i) => {
      const [before = NaN, after = NaN] = [values[i - 1], values[i + 1]];
      return Math.abs(before - 2 * value + after) || 0;
    });
    const most = bends.indexOf(Math.max(...bends));
    from = places[most - 1] ?? from;
    to = places[most + 1] ?? to;
  }
  return (from + to) / 2;
}
