import { type Reading, medianGap } from "./readings-log.js";
import { median } from "../numeric/robust.js";
import { valueAt } from "../numeric/value-at.js";

/** How many readings on either side determine the level of a log. */
export interface Scope {
  readonly width: number;
  /** Whether readings are so close together that beer hardly changes within the width. */
  readonly dense: boolean;
  /** Smaller rises of the level are scatter, points. */
  readonly least: number;
}

/** Logs with a spacing up to this, days, are dense. */
export const DENSE = 1 / 4;
const LEVEL_SPAN = 3 / 24; // days
const WIDTH = { least: 3, most: 12 };
/** Smallest rise that matters to a brewer, points. */
const MIN_RISE = 2;

/** @param scatter standard deviation of one reading, points */
export function scopeOf(readings: readonly Reading[], scatter: number): Scope {
  const gap = medianGap(readings);
  const width = Math.min(Math.max(Math.round(LEVEL_SPAN / gap), WIDTH.least), WIDTH.most);
  // The difference of two medians of `width` readings has a standard deviation of 1.25·√(2/width); four of these are
  // significant.
  return { width, dense: gap <= DENSE, least: Math.max(MIN_RISE, (7 * scatter) / Math.sqrt(width)) };
}

const levelBefore = (readings: readonly Reading[], place: number, width: number): number =>
  median(readings.slice(Math.max(0, place - width), place).map(({ gravity }) => gravity));

const levelFrom = (readings: readonly Reading[], place: number, width: number): number =>
  median(readings.slice(place, place + width).map(({ gravity }) => gravity));

/** Cause of a rise. Places are indexes of readings; `end` is the first correct one again. */
export type Rise =
  | { readonly kind: "tilt"; readonly first: number; readonly end: number }
  | { readonly kind: "stays"; readonly by: number }
  | { readonly kind: "sugar" };

// The rules below are our own, since no source says how to tell a tilt from sugar. A tilt ends as abruptly as it began;
// yeast takes at least half a day to ferment sugar away.

/** Longer tilts, in days or readings, are not searched for. */
const LONGEST_TILT = { days: 7, readings: 2000 };
/** Share of a rise that vanishes at once when a tilt ends. */
const CLIFF = 0.6;
/** Levels that differ by no more than this share of a rise are equal. */
const SAME = 0.3;
/** Share of a rise that must have fermented away again if it was sugar. */
const FERMENTED = 0.5;

/** @param place first reading on the higher level */
function classifyRise(readings: readonly Reading[], place: number, scope: Scope): Rise {
  const below = levelBefore(readings, place, scope.width);
  const above = levelFrom(readings, place, scope.width);
  const by = above - below;
  const low = scope.dense ? lowPlateau(readings, place, scope, by) : undefined;
  if (low !== undefined) return { kind: "tilt", first: low, end: place };
  const end = scope.dense ? cliffAfter(readings, place, scope, by) : stepBack(readings, place, below, by);
  if (end !== undefined) return { kind: "tilt", first: place, end };
  const last = levelBefore(readings, readings.length, scope.width);
  const top = Math.max(above, valueAt(readings, place).gravity);
  return top - last >= Math.max(FERMENTED * (top - below), scope.least)
    ? { kind: "sugar" }
    : { kind: "stays", by };
}

/** The place where the level falls by most of the rise within one step, faster than yeast could. */
function cliffAfter(
  readings: readonly Reading[],
  place: number,
  scope: Scope,
  by: number,
): number | undefined {
  const { width } = scope;
  const limit = valueAt(readings, place).time + LONGEST_TILT.days;
  const end = Math.min(readings.length - width, place + LONGEST_TILT.readings);
  const steps: number[] = [];
  for (let i = place + width; i <= end && valueAt(readings, i).time <= limit; i++)
    if (stepsDown(readings, i, scope, by)) steps.push(i);
    else if (steps.length > 0) break;
  return steps.length === 0 ? undefined : lowestStep(readings, steps);
}

/** Whether the level falls here by most of the rise. Across a gap nobody can tell how fast it fell. */
function stepsDown(readings: readonly Reading[], i: number, { width }: Scope, by: number): boolean {
  const gap = valueAt(readings, i).time - valueAt(readings, i - 1).time;
  return gap <= DENSE && levelBefore(readings, i, width) - levelFrom(readings, i, width) >= CLIFF * by;
}

/** The place with the largest step down to it. */
function lowestStep(readings: readonly Reading[], places: readonly number[]): number {
  const step = (i: number): number => valueAt(readings, i).gravity - valueAt(readings, i - 1).gravity;
  return places.reduce((best, i) => (step(i) < step(best) ? i : best));
}

/**
 * Where sparse readings return at once from the higher level to the lower one. A single high reading is a spike
 * instead.
 */
function stepBack(
  readings: readonly Reading[],
  place: number,
  below: number,
  by: number,
): number | undefined {
  const levels = readings.slice(place).map(({ gravity }) => (gravity - below) / by);
  const back = levels.findIndex((level) => level < 1 - SAME);
  if (back < 2) return undefined;
  const flat = valueAt(levels, 0) - valueAt(levels, back - 1) <= SAME;
  return flat && valueAt(levels, back) <= SAME ? place + back : undefined;
}

/** Start of a tilt to the low side that ends here: a flat stretch at the present level, and a cliff. */
function lowPlateau(
  readings: readonly Reading[],
  place: number,
  scope: Scope,
  by: number,
): number | undefined {
  const { width } = scope;
  const above = levelFrom(readings, place, width);
  const limit = valueAt(readings, place).time - LONGEST_TILT.days;
  const end = Math.max(2 * width, place - LONGEST_TILT.readings);
  const steps: number[] = [];
  for (let i = place - width; i >= end && valueAt(readings, i).time >= limit; i--) {
    const before = levelBefore(readings, i, width);
    const flat = Math.abs(levelBefore(readings, i - width, width) - before) <= SAME * by;
    if (flat && Math.abs(before - above) <= SAME * by && stepsDown(readings, i, scope, by)) steps.push(i);
    else if (steps.length > 0) break;
  }
  return steps.length === 0 ? undefined : lowestStep(readings, steps);
}

/** A rise of the level that stayed: a tilt that never returned. */
export interface LevelShift {
  /** Time of the first displaced reading. */
  readonly from: number;
  /** Points too high. */
  readonly by: number;
}

/** Result of looking for rises in a log. */
export interface Levelled {
  /** Without temporary tilts, and with lasting ones subtracted. */
  readonly readings: readonly Reading[];
  readonly tilted: readonly Reading[];
  readonly shifts: readonly LevelShift[];
  /** Times of the first readings after sugar was added. */
  readonly restarts: readonly number[];
}

/** No beer has more; any further ones stay in the log. */
const MAX_RISES = 20;

/**
 * Finds rises in the level of a log, which fermenting beer does not show, and their causes: the instrument was tilted
 * by foam or dry hops, for a time or for good, or sugar was added.
 *
 * @param given in order, without spikes
 */
export function levelled(given: readonly Reading[], scope: Scope): Levelled {
  let readings = given;
  const tilted: Reading[] = [];
  const shifts: LevelShift[] = [];
  const restarts: number[] = [];
  let searched = 0;
  for (let n = 0; n < MAX_RISES; n++) {
    const place = findRise(readings, searched, scope);
    if (place === undefined) break;
    const rise = classifyRise(readings, place, scope);
    const from = valueAt(readings, place).time;
    searched = place + scope.width; // from here on, readings before the rise no longer count
    if (rise.kind === "tilt") {
      tilted.push(...readings.slice(rise.first, rise.end));
      readings = [...readings.slice(0, rise.first), ...readings.slice(rise.end)];
      searched = rise.first;
    } else if (rise.kind === "sugar") restarts.push(from);
    else {
      shifts.push({ from, by: rise.by });
      readings = readings.map((each) =>
        each.time < from ? each : { ...each, gravity: each.gravity - rise.by },
      );
    }
  }
  return { readings, tilted, shifts, restarts };
}

/** The next place whose reading is on a higher level than the one before it. */
function findRise(readings: readonly Reading[], searched: number, scope: Scope): number | undefined {
  const { width, least } = scope;
  const rise = (i: number): number => levelFrom(readings, i, width) - levelBefore(readings, i, width);
  const means = runningMeans(readings, width);
  for (let i = Math.max(width, searched); i + width <= readings.length; i++) {
    // Medians are slower than means, and most places show no rise.
    if (valueAt(means, i) - valueAt(means, i - width) < least / 2 || rise(i) < least) continue;
    return steepest(readings, i, scope);
  }
  return undefined;
}

/** The place within the width with the largest step up to it. */
function steepest(readings: readonly Reading[], place: number, { width }: Scope): number {
  const step = (i: number): number => valueAt(readings, i).gravity - valueAt(readings, i - 1).gravity;
  let best = place;
  for (let i = place; i < place + width && i < readings.length; i++) if (step(i) > step(best)) best = i;
  return best;
}

/** Mean of `width` readings from each place on. */
function runningMeans(readings: readonly Reading[], width: number): Float64Array {
  const means = new Float64Array(Math.max(0, readings.length - width + 1));
  let sum = 0;
  readings.forEach(({ gravity }, i) => {
    sum += gravity - (readings[i - width]?.gravity ?? 0);
    if (i >= width - 1) means[i - width + 1] = sum / width;
  });
  return means;
}
