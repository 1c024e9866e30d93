import type { Reading } from "./ferment-log.js";
import { DENSE, levelBefore, levelFrom, type Scope } from "./level.js";
import { valueAt } from "./value-at.js";

/** What a rise of the level means. Places count readings; `end` is the first that is right again. */
export type Rise =
  | { readonly kind: "tilt"; readonly first: number; readonly end: number }
  | { readonly kind: "stays"; readonly by: number }
  | { readonly kind: "sugar" };

// The rules below are our own: no source says how to tell a tilt from sugar. A tilt ends as it began, at once; what yeast
// takes away goes within half a day at the least.

/** A tilt that lasts longer, in days or readings, is not looked for. */
const LONGEST_TILT = { days: 7, readings: 2000 };
/** Share of a rise that goes at once where a tilt ends. */
const CLIFF = 0.6;
/** Levels that differ by no more than this share of a rise are the same. */
const SAME = 0.3;
/** Share of a rise that must have fermented away again before it counts as sugar. */
const FERMENTED = 0.5;

/** @param place of the first reading on the higher level */
export function classifyRise(readings: readonly Reading[], place: number, scope: Scope): Rise {
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

/** Where the level falls by most of the rise between one look and the next: faster than yeast could. */
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

/** Whether the level falls here by most of the rise. Across a gap nobody knows how fast it fell. */
function stepsDown(readings: readonly Reading[], i: number, { width }: Scope, by: number): boolean {
  const gap = valueAt(readings, i).time - valueAt(readings, i - 1).time;
  return gap <= DENSE && levelBefore(readings, i, width) - levelFrom(readings, i, width) >= CLIFF * by;
}

/** Of these places, the one with the greatest step down to it. */
function lowestStep(readings: readonly Reading[], places: readonly number[]): number {
  const step = (i: number): number => valueAt(readings, i).gravity - valueAt(readings, i - 1).gravity;
  return places.reduce((best, i) => (step(i) < step(best) ? i : best));
}

/** Where readings far apart go straight from the higher level back to the lower one. One alone is a spike instead. */
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

/** Where a tilt to the low side began that ends here: a level stretch as high as this one, and a cliff. */
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
