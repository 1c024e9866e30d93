import { fittedPolynomial } from "./chebyshev-fit.js";
import type { Domain } from "./domain.js";
import { constant, extreme, piecewise, substituted, type Expression } from "./expression.js";
import { chebyshevNodes, type Interval } from "./interval.js";
import { polynomialFormula, polynomialValue, type Coefficients } from "./polynomial.js";
import { GRID, grid, narrowed, shortBound, type Answers } from "./valid-span.js";

const EDGE_DEGREES = 8;
/** Corners after one another at which an edge is split. */
const MAX_CORNERS = 2;

/**
 * One edge of a domain as an expression of x: a polynomial where the edge is curved and a number where it is not,
 * always on the inner side.
 *
 * @param tolerance how far inside it may be, if possible
 */
export function edgeOf(
  { x, y, spanAt, nodes }: Domain,
  side: "min" | "max",
  variable: Expression,
  tolerance: number,
  [name = "", bounded = ""]: readonly string[],
): Expression {
  const bound = shortBound(y[side], side, y);
  const inwards = side === "min" ? 1 : -1;
  const edgeAt = (at: number): number => spanAt(at)?.[side] ?? bound;
  // At the very ends the function may or may not answer, because of rounding.
  const slack = (x.max - x.min) * 1e-6;
  const isDiagonal = nodes.every((at) => Math.abs(edgeAt(at) - at) <= slack);
  if (isDiagonal) return variable;
  const isCurved: Answers = (places) => places.map((at) => Math.abs(edgeAt(at) - bound) > tolerance / 4);
  const bends = isCurved(nodes);
  const [first, last] = [bends.indexOf(true), bends.lastIndexOf(true)];
  if (first < 0) return constant(bound);
  const [fromStart, toEnd] = [first === 0, last === nodes.length - 1];
  // The point where an edge begins to curve need not be known more exactly.
  const turn = (inner: number, outer: number): number =>
    narrowed(isCurved, nodes[inner] ?? x.min, nodes[outer] ?? x.max, 100 * slack);
  const curved = {
    min: fromStart ? x.min + slack : turn(first, first - 1),
    max: toEnd ? x.max - slack : turn(last, last + 1),
  };
  const fitOn = fromStart || toEnd ? curved : x;
  const title = `${side === "min" ? "Least" : "Greatest"} ${bounded}`;
  // Beyond its end a curve stays what it is there.
  const clamped =
    fromStart === toEnd
      ? variable
      : extreme(
          fromStart ? "MIN" : "MAX",
          constant(shortened(fromStart ? curved.max : curved.min)),
          variable,
        );
  return inwardPolynomial(edgeAt, fitOn, clamped, tolerance, inwards, (coefficients, worst) =>
    substituted(polynomialFormula(coefficients, [name], { title, worst }), [clamped]),
  );
}

const shortened = (value: number): number => Number(value.toPrecision(7));

/**
 * Raises the degree until the tolerance is met, then shifts the polynomial inwards by its largest error. An edge with a
 * corner, where another bound takes over, is split there, and a part with one again.
 */
function inwardPolynomial(
  edgeAt: (x: number) => number,
  interval: Interval,
  variable: Expression,
  tolerance: number,
  inwards: 1 | -1,
  curveOf: (coefficients: Coefficients, worst: number) => Expression,
  corners = MAX_CORNERS,
): Expression {
  const nodes = chebyshevNodes(interval, 2 * EDGE_DEGREES).map((x) => ({ x: [x], y: edgeAt(x) }));
  const dense = chebyshevNodes(interval, 3 * EDGE_DEGREES - 1).map((x) => [x, edgeAt(x)] as const);
  for (let degree = 1; ; degree++) {
    const coefficients = fittedPolynomial(nodes, [interval], degree, tolerance / 100);
    const worst = Math.max(...dense.map(([x, y]) => Math.abs(y - polynomialValue(coefficients, [x]))));
    if (worst <= tolerance / 2 || (degree === EDGE_DEGREES && corners === 0)) {
      const [[constant = 0, ...others] = []] = coefficients.rows;
      const rows = [[constant + inwards * worst, ...others]];
      return curveOf({ ...coefficients, rows }, 2 * worst);
    }
    if (degree < EDGE_DEGREES) continue;
    const corner = shortened(cornerOf(edgeAt, interval));
    const side = (part: Interval): Expression =>
      inwardPolynomial(edgeAt, part, variable, tolerance, inwards, curveOf, corners - 1);
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
