import { smoothAt, type Fermentation, type Part } from "./fermentation.js";
import type { Reading } from "./ferment-log.js";
import { localLine } from "./local-line.js";
import { Refusal } from "./refusal.js";

/** Days to either side over which a rate is taken. */
const NEAR = 0.5;
/** Readings that it takes at the least, from farther away if need be. */
const LEAST = 3;

/** Float dust of a level stretch, points per day. */
const DUST = 1e-6;

/** How fast a part of a fermentation falls at a time: points per day, never negative. */
export function rateIn(part: Part): (time: number) => number {
  const line = localLine(part, NEAR, LEAST);
  return (time) => {
    const { slope } = line(time);
    return slope < -DUST ? -slope : 0;
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
  const [first, last] = [readings[0]?.time ?? NaN, readings.at(-1)?.time ?? NaN];
  const rates = new Map(parts.map((part) => [part, rateIn(part)]));
  return (time = last) => {
    if (!(time >= first && time <= last)) throw new Refusal({ kind: "outside-log", at: time, first, last });
    const part = parts.findLast((each) => (each[0]?.time ?? NaN) <= time) ?? parts[0] ?? [];
    if (part.length < 2) throw new Refusal({ kind: "too-few-readings", given: part.length, needed: 2 });
    const within = Math.min(Math.max(time, part[0]?.time ?? NaN), part.at(-1)?.time ?? NaN);
    return { time, gravity: smoothAt(part, within), rate: rates.get(part)?.(within) ?? NaN };
  };
}
