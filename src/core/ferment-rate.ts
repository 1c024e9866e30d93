import { smoothAt, type Fermentation, type Part } from "./fermentation.js";
import type { Reading } from "./ferment-log.js";
import { localLines } from "./local-line.js";
import { Refusal } from "./refusal.js";

/** Days to either side over which a rate is taken. */
const NEAR = 0.5;
/** Readings that it takes at the least, from farther away if need be. */
const LEAST = 3;

/** Float dust of a level stretch, points per day. */
const DUST = 1e-6;

/** How fast a part of a fermentation falls at given times, in order: points per day, never negative. */
export function ratesOf(part: Part, times: readonly number[]): number[] {
  return localLines(part, times, NEAR, LEAST).map(({ slope }) => (slope < -DUST ? -slope : 0));
}

/** A smooth gravity, points, and how fast it falls, points per day. */
export interface Fall extends Reading {
  readonly rate: number;
}

/**
 * How fast gravity falls: the slope of the least-squares line through the smooth gravities within half a day, or, where
 * these are fewer than three, to the next ones on either side. It does not reach across an addition of sugar.
 *
 * @param at days; if left out, the last reading
 * @throws Refusal before the first and after the last reading, and where there is only one to go by
 */
export function fallAt({ readings, parts }: Fermentation, at?: number): Fall {
  const [first, last] = [readings[0]?.time ?? NaN, readings.at(-1)?.time ?? NaN];
  const time = at ?? last;
  if (!(time >= first && time <= last)) throw new Refusal({ kind: "outside-log", at: time, first, last });
  const part = parts.findLast((each) => (each[0]?.time ?? NaN) <= time) ?? parts[0] ?? [];
  if (part.length < 2) throw new Refusal({ kind: "too-few-readings", given: part.length, needed: 2 });
  const within = Math.min(Math.max(time, part[0]?.time ?? NaN), part.at(-1)?.time ?? NaN);
  return { time, gravity: smoothAt(part, within), rate: ratesOf(part, [within])[0] ?? NaN };
}
