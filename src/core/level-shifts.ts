import type { Reading } from "./ferment-log.js";
import { levelBefore, levelFrom, type Scope } from "./level.js";
import { classifyRise } from "./rise.js";
import { valueAt } from "./value-at.js";

/** A rise of the level that stayed: a tilt that never returned. */
export interface Shift {
  /** Time of the first reading that is off. */
  readonly from: number;
  /** Points too high. */
  readonly by: number;
}

/** What rises in a log mean. */
export interface Levelled {
  /** Without what was tilted for a time, and put back where a tilt has stayed. */
  readonly readings: readonly Reading[];
  readonly tilted: readonly Reading[];
  readonly shifts: readonly Shift[];
  /** Times of the first readings after sugar was added. */
  readonly restarts: readonly number[];
}

/** More of them than any beer sees: the rest stays as it is. */
const MOST_RISES = 20;

/**
 * Finds where the level of a log rises, which fermenting beer does not do, and says why: the instrument was tilted, by
 * foam or dry hops, for a time or for good, or sugar was added.
 *
 * @param given in order, without spikes
 */
export function levelled(given: readonly Reading[], scope: Scope): Levelled {
  let readings = given;
  const tilted: Reading[] = [];
  const shifts: Shift[] = [];
  const restarts: number[] = [];
  let searched = 0;
  for (let n = 0; n < MOST_RISES; n++) {
    const place = findRise(readings, searched, scope);
    if (place === undefined) break;
    const rise = classifyRise(readings, place, scope);
    const from = valueAt(readings, place).time;
    searched = place + scope.width; // from where nothing of what was before the rise is looked at any more
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

/** The next place whose reading stands on a higher level than the one before it. */
function findRise(readings: readonly Reading[], searched: number, scope: Scope): number | undefined {
  const { width, least } = scope;
  const rise = (i: number): number => levelFrom(readings, i, width) - levelBefore(readings, i, width);
  const means = runningMeans(readings, width);
  for (let i = Math.max(width, searched); i + width <= readings.length; i++) {
    // Medians take longer than means, and most places have no rise.
    if (valueAt(means, i) - valueAt(means, i - width) < least / 2 || rise(i) < least) continue;
    return steepest(readings, i, scope);
  }
  return undefined;
}

/** Of the places within the width, the one with the highest step up to it. */
function steepest(readings: readonly Reading[], place: number, { width }: Scope): number {
  const step = (i: number): number => valueAt(readings, i).gravity - valueAt(readings, i - 1).gravity;
  let best = place;
  for (let i = place; i < place + width && i < readings.length; i++) if (step(i) > step(best)) best = i;
  return best;
}

/** Means of so many readings from each place on. */
function runningMeans(readings: readonly Reading[], width: number): Float64Array {
  const means = new Float64Array(Math.max(0, readings.length - width + 1));
  let sum = 0;
  readings.forEach(({ gravity }, i) => {
    sum += gravity - (readings[i - width]?.gravity ?? 0);
    if (i >= width - 1) means[i - width + 1] = sum / width;
  });
  return means;
}
