import type { Interval } from "./interval.js";

/** Whether a function answers at each of some points. */
export type Answers = (places: readonly number[]) => readonly boolean[];

/** Cells of the grid that locates the answers. */
export const GRID = 40;
const FINER = 8;
const EDGE_DECIMALS = 4;

/** Default precision of an edge: one part in forty million of the interval. */
export const precisionIn = ({ min, max }: Interval): number => (max - min) / GRID / 2 ** 20;

/** The part of an interval in which a function answers; undefined if it never does. */
export function validSpan(
  answers: Answers,
  interval: Interval,
  precision = precisionIn(interval),
): Interval | undefined {
  const { places, valid } = looked(answers, interval);
  const first = valid.indexOf(true);
  const last = valid.lastIndexOf(true);
  if (first < 0) return undefined;
  const edge = (inside: number, outside: number | undefined): number => {
    if (outside === undefined) return inside;
    const found = narrowed(answers, inside, outside, precision);
    // Most edges are round numbers, which cells hold exactly.
    const round = Number(found.toFixed(EDGE_DECIMALS));
    return Math.abs(round - found) <= 2 * precision && answers([round]).includes(true) ? round : found;
  };
  return {
    min: edge(places[first] ?? interval.min, places[first - 1]),
    max: edge(places[last] ?? interval.max, places[last + 1]),
  };
}

/** Evaluates a grid over an interval, and a finer one if that finds no answer. */
export function looked(answers: Answers, interval: Interval) {
  const coarse = lookedOnce(answers, interval);
  return coarse.valid.includes(true) ? coarse : lookedOnce(answers, interval, FINER);
}

/** Evaluates a grid over an interval. */
export function lookedOnce(answers: Answers, { min, max }: Interval, finer = 1) {
  const places = grid(min, max, finer * GRID);
  return { places, valid: answers(places) };
}

export function grid(from: number, to: number, pieces: number): number[] {
  return Array.from({ length: pieces + 1 }, (_, i) => from + ((to - from) * i) / pieces);
}

/** The last point with an answer on the way from `inside` to `outside`. */
export function narrowed(answers: Answers, inside: number, outside: number, precision: number): number {
  let [from, to] = [inside, outside];
  while (Math.abs(to - from) > precision) {
    const middle = (from + to) / 2;
    if (answers([middle]).includes(true)) from = middle;
    else to = middle;
  }
  return from;
}

/** A bound in few digits: a round number if it is one but for rounding, or a little inside. */
export function shortBound(value: number, side: "min" | "max", { min, max }: Interval): number {
  const round = Number(value.toFixed(4));
  if (Math.abs(round - value) <= (max - min) * 1e-6) return round;
  const step = 10 ** Math.floor(Math.log10((max - min) * 1e-5));
  const inside = side === "min" ? Math.ceil(value / step) * step : Math.floor(value / step) * step;
  return Number(inside.toPrecision(12));
}
