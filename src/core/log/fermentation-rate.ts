import { smoothAt, type Fermentation, type FallingStretch } from "./fermentation.js";
import type { Reading } from "./readings-log.js";
import { localLine } from "./local-line.js";
import { Refusal } from "../refusal.js";
import { lastOf, valueAt } from "../numeric/value-at.js";

/** Half-width of the time window over which a rate is taken, days. */
const HALF_WINDOW = 0.5;
/** Fewest readings for a rate; they are taken from further away if need be. */
const MIN_READINGS = 3;

/** Slopes of a level stretch that are rounding errors only, points per day. */
const ROUNDING_ERROR = 1e-6;

/** Rate of fall within a part of a fermentation at a time: points per day, never negative. */
export function rateIn(part: FallingStretch): (time: number) => number {
  const line = localLine(part, HALF_WINDOW, MIN_READINGS);
  return (time) => {
    const { slope } = line(time);
    return slope < -ROUNDING_ERROR ? -slope : 0;
  };
}

/** A smooth gravity, points, and its rate of fall, points per day. */
export interface Fall extends Reading {
  readonly rate: number;
}

/**
 * Rate of fall: the slope of the least-squares line through the smooth gravities within half a day or, if there are
 * fewer than three, through the nearest ones on either side. The window does not cross an addition of sugar.
 *
 * @returns a function of time, days, by default that of the last reading. It throws a Refusal before the first and
 *   after the last reading, and if there is only one reading to go by
 */
export function fallOf({ readings, parts }: Fermentation): (at?: number) => Fall {
  const [first, last] = [valueAt(readings, 0).time, lastOf(readings).time];
  const falling = parts.map((part) => ({ part, begins: valueAt(part, 0).time, rate: rateIn(part) }));
  return (time = last) => {
    if (!(time >= first && time <= last)) throw new Refusal({ kind: "outside-log", at: time, first, last });
    // The first readings may have been excluded, as may those between the parts.
    const own = falling.findLast(({ begins }) => begins <= time) ?? valueAt(falling, 0);
    const { part, begins, rate } = own;
    if (part.length < 2) throw new Refusal({ kind: "too-few-readings", given: part.length, needed: 2 });
    const within = Math.min(Math.max(time, begins), lastOf(part).time);
    return { time, gravity: smoothAt(part, within), rate: rate(within) };
  };
}
