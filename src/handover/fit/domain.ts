import { chebyshevNodes, type Interval } from "./interval.js";
import {
  GRID,
  grid,
  looked,
  lookedOnce,
  narrowed,
  precisionIn,
  validSpan,
  type Answers,
} from "./valid-span.js";

/** Domain of a function of two variables: for each x an interval of y. */
export interface Domain {
  readonly x: Interval;
  readonly y: Interval;
  readonly spanAt: (x: number) => Interval | undefined;
  /** Where spans are known already, in order. */
  readonly nodes: readonly number[];
}

/** The interval of y with answers at an x. */
interface Known {
  readonly x: number;
  readonly span: Interval;
}

/** A function of x and y, at many y. */
type AnswersAt = (x: number) => Answers;

/**
 * @param x the largest interval in which it may answer
 * @returns undefined if it never does
 */
export function domainOf(answersAt: AnswersAt, x: Interval, y: Interval): Domain | undefined {
  const ends = endsOf(answersAt, x, y);
  if (!ends) return undefined;
  const within = { min: ends[0].x, max: ends[1].x };
  const spanAt = spansOf(answersAt, ends, y);
  // From the middle outwards: each interval is found from the one before; near a tip there is no other way.
  const middle = (within.min + within.max) / 2;
  const nodes = chebyshevNodes(within, GRID);
  const outwards = [...nodes].sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle));
  const found = outwards.flatMap((at) => spanAt(at) ?? []);
  return {
    x: within,
    y: {
      min: Math.min(...found.map(({ min }) => min)),
      max: Math.max(...found.map(({ max }) => max)),
    },
    spanAt,
    nodes,
  };
}

/** The first and the last x with any answer. */
function endsOf(answersAt: AnswersAt, x: Interval, y: Interval): readonly [Known, Known] | undefined {
  const met = new Map<number, Interval>();
  const some =
    (look: typeof looked): Answers =>
    (places) =>
      places.map((at) => {
        const found = metOn(look(answersAt(at), y));
        if (found) met.set(at, found);
        return found !== undefined;
      });
  const coarse = lookedOnce(some(lookedOnce), x);
  const { places, valid } = coarse.valid.includes(true) ? coarse : looked(some(looked), x);
  const first = valid.indexOf(true);
  const last = valid.lastIndexOf(true);
  if (first < 0) return undefined;
  const end = (inside = NaN, outside: number | undefined): Known => {
    // Towards an end answers become rarer, and the last ones lie close to earlier ones.
    let near = widened(met.get(inside) ?? y, y, (y.max - y.min) / GRID);
    const stillSome: Answers = ([at = NaN]) => {
      const ys = grid(near.min, near.max, GRID / 2);
      const found = metOn({ places: ys, valid: answersAt(at)(ys) });
      if (found) near = widened(found, y, (near.max - near.min) / GRID);
      return [found !== undefined];
    };
    const at = outside === undefined ? inside : narrowed(stillSome, inside, outside, precisionIn(x));
    return { x: at, span: validSpan(answersAt(at), near, precisionIn(y)) ?? near };
  };
  return [end(places[first], places[first - 1]), end(places[last], places[last + 1])];
}

/** From the first to the last point of a grid with an answer. */
function metOn({ places, valid }: ReturnType<typeof looked>): Interval | undefined {
  const met = places.filter((_, i) => valid[i]);
  const [min, max] = [met[0], met.at(-1)];
  return min === undefined || max === undefined ? undefined : { min, max };
}

/** Widens an interval by its own width and perhaps a little more on either side, within limits. */
function widened({ min, max }: Interval, limits: Interval, little = 0): Interval {
  const more = max - min + little;
  return { min: Math.max(limits.min, min - more), max: Math.min(limits.max, max + more) };
}

/** Finds the interval at any x between two ends, and caches the result. */
function spansOf(answersAt: AnswersAt, ends: readonly Known[], y: Interval): Domain["spanAt"] {
  const spans = new Map<number, Interval | undefined>(ends.map((end) => [end.x, end.span]));
  const neighbour = (at: number, side: 1 | -1): Known | undefined => {
    let nearest: Known | undefined;
    for (const [x, span] of spans)
      if (span && side * (x - at) > 0 && !(nearest && side * (nearest.x - x) <= 0)) nearest = { x, span };
    return nearest;
  };
  return (at) => {
    if (!spans.has(at)) {
      const [below, above] = [neighbour(at, -1), neighbour(at, 1)];
      const answers = answersAt(at);
      spans.set(at, (below && above && between(answers, at, below, above, y)) ?? validSpan(answers, y));
    }
    return spans.get(at);
  };
}

const CLOSE = 1 / 32;

/** An interval from its two neighbours, between which its edges usually lie; undefined if they do not. */
function between(answers: Answers, at: number, a: Known, b: Known, y: Interval): Interval | undefined {
  const share = (at - a.x) / (b.x - a.x);
  const expected = (side: "min" | "max"): number => a.span[side] + share * (b.span[side] - a.span[side]);
  const middle = (expected("min") + expected("max")) / 2;
  const edge = (side: "min" | "max", outwards: 1 | -1, part = 1): number | undefined => {
    const reach = outwards * (part * Math.abs(b.span[side] - a.span[side]) + 2 * precisionIn(y));
    const [near, far] = [expected(side) - reach, expected(side) + reach];
    // Towards a tip there is no room for more.
    const inside = outwards * (near - middle) > 0 ? near : middle;
    const isAtLimit = outwards * (far - y[side]) >= 0;
    const outside = isAtLimit ? y[side] : far;
    const [isIn, isOut] = answers([inside, outside]);
    if (isIn !== true || (isOut === true && !isAtLimit)) return undefined;
    return isOut ? outside : narrowed(answers, inside, outside, precisionIn(y));
  };
  // Most edges are nearly straight between neighbours, and found sooner close to that line.
  const [min, max] = [edge("min", -1, CLOSE) ?? edge("min", -1), edge("max", 1, CLOSE) ?? edge("max", 1)];
  return min === undefined || max === undefined ? undefined : { min, max };
}
