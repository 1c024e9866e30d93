import { partitionPoint, lastOf, valueAt } from "../numeric/value-at.js";
import type { Fermentation, FallingStretch } from "./fermentation.js";
import { rateIn, type Fall } from "./fermentation-rate.js";
import { steadyFrom } from "./fermentation-steady.js";
import type { Reading } from "./readings-log.js";

/** Stages of a fermentation, each with its time and smooth gravity, or undefined if not reached yet. */
export interface Stages {
  /** Gravity has fallen by two points since the log began. */
  readonly started: Reading | undefined;
  /** The fastest fall. */
  readonly fastest: Reading | undefined;
  /** From here on the rate stays below half of the fastest. */
  readonly slowing: Reading | undefined;
  /** From here it fell by no more than one point in three days, with no sugar added later. */
  readonly steady: Reading | undefined;
}

/**
 * Fermentation has started once gravity has fallen by this many points: twice what a hydrometer can show. Common
 * practice, no source.
 */
const STARTED = 2;
/** Share of the fastest rate below which a fermentation is slowing. Our own choice. */
const SLOWED = 0.5;

/**
 * When a gravity was passed for the last time, interpolated linearly between readings.
 *
 * @returns undefined if gravity is still above it, or never was
 */
export function passed(parts: readonly FallingStretch[], target: number): Reading | undefined {
  for (const [i, part] of [...parts.entries()].reverse()) {
    const above = partitionPoint(part, ({ gravity }) => gravity > target);
    // If a part ends above and the next lies entirely below, its first reading is where it was passed.
    const [from, to] = [part[above - 1], part[above] ?? parts[i + 1]?.[0]];
    if (!from) continue;
    if (!to) return undefined;
    const share = (from.gravity - target) / (from.gravity - to.gravity);
    return { time: from.time + share * (to.time - from.time), gravity: target };
  }
  return undefined;
}

function fallsOf(part: FallingStretch): Fall[] {
  const rate = rateIn(part);
  return part.map(({ time, gravity }) => ({ time, gravity, rate: rate(time) }));
}

/** Where the rate fell below a value for the last time, interpolated linearly; the rate did reach that value. */
function slowedBelow(falling: readonly Fall[], rate: number): Reading | undefined {
  const last = falling.findLastIndex((each) => each.rate >= rate);
  const [from, to] = [valueAt(falling, last), falling[last + 1]];
  if (!to) return undefined;
  const share = (from.rate - rate) / (from.rate - to.rate);
  return {
    time: from.time + share * (to.time - from.time),
    gravity: from.gravity + share * (to.gravity - from.gravity),
  };
}

/** @param log with at least one reading */
export function stagesOf({ parts }: Fermentation): Stages {
  const beginning = valueAt(valueAt(parts, 0), 0).gravity;
  const firstOver = parts.find((part) => lastOf(part).gravity <= beginning - STARTED);
  const started = firstOver && passed([firstOver], beginning - STARTED);
  if (!started) return { started: undefined, fastest: undefined, slowing: undefined, steady: undefined };
  const falling = parts.flatMap(fallsOf);
  const fastest = falling.reduce((most, each) => (each.rate > most.rate ? each : most));
  const slowing = slowedBelow(falling, SLOWED * fastest.rate);
  const still = slowing && lastOf(parts).filter(({ time }) => time >= slowing.time);
  const steady = still && still[steadyFrom(still) ?? Infinity];
  return {
    started,
    fastest: { time: fastest.time, gravity: fastest.gravity },
    slowing,
    steady: steady && { time: steady.time, gravity: steady.gravity },
  };
}
