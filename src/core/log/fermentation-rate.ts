import { smoothAt, type Fermentation, type FallingStretch } from "./fermentation.js";
import type { Reading } from "./readings-log.js";
import { localLine } from "./local-line.js";
import { Refusal } from "../refusal.js";
import { lastOf, valueAt } from "../numeric/value-at.js";

/** Days to either side over which a rate is taken. */
const HALF_WINDOW = 0.5;
/** Readings that it takes at the least, from farther away if need be. */
const MIN_READINGS = 3;

/** Float dust of a level stretch, points per day. */
const ROUNDING_ERROR = 1e-6;

/** How fast a part of a fermentation falls at a time: points per day, never negative. */
export function rateIn(part: FallingStretch): (time: number) => number {
  const line = localLine(part, HALF_WINDOW, MIN_READINGS);
  return (time) => {
    const { slope } = line(time);
    return slope < -ROUNDING_ERROR ? -slope : 0;
  };
}

/** A smooth gravity, points, and how fast it falls, points per day. */
export interface Fall extends Reading {
  readonly rate: number;
}

/**
 * How fast gravity falls: the slope of the least-squares line through the smooth gravities within half a day, or, where
 * these are fewer than three, to the next ones on either side. It does not reach across an addition of sugar.
 *
 * @returns what tells of a time, days; if that is left out, of the last reading. It throws a Refusal before the first and
 *   after the last reading, and where there is only one to go by
 */
export function fallOf({ readings, parts }: Fermentation): (at?: number) => Fall {
  const [first, last] = [valueAt(readings, 0).time, lastOf(readings).time];
  const falling = parts.map((part) => ({ part, begins: valueAt(part, 0).time, rate: rateIn(part) }));
  return (time = last) => {
    if (!(time >= first && time <= last)) throw new Refusal({ kind: "outside-log", at: time, first, last });
    // The first reading of all may have been set aside, and what comes after the part that it belongs to.
    const own = falling.findLast(({ begins }) => begins <= time) ?? valueAt(falling, 0);
    const { part, begins, rate } = own;
    if (part.length < 2) throw new Refusal({ kind: "too-few-readings", given: part.length, needed: 2 });
    const within = Math.min(Math.max(time, begins), lastOf(part).time);
    return { time, gravity: smoothAt(part, within), rate: rate(within) };
  };
}
