import { partitionPoint, valueAt } from "../numeric/value-at.js";
import { median } from "../numeric/robust.js";

/** One line of a fermentation log. */
export interface Reading {
  /** Days, from any origin. */
  readonly time: number;
  /** Points: 1000·(SG − 1). */
  readonly gravity: number;
}

/** Sorts readings by time and merges those at the same time into one, by their median. */
export function inOrder(readings: readonly Reading[]): Reading[] {
  const sorted = [...readings].sort((a, b) => a.time - b.time);
  const joined: Reading[] = [];
  for (let from = 0, to = 0; from < sorted.length; from = to) {
    const first = valueAt(sorted, from);
    while (sorted[to]?.time === first.time) to++;
    const same = sorted.slice(from, to);
    joined.push(same.length === 1 ? first : { ...first, gravity: median(same.map((r) => r.gravity)) });
  }
  return joined;
}

/** Number of readings before a time, or up to and including it. */
export function countUntil(readings: readonly Reading[], time: number, including: boolean): number {
  return partitionPoint(readings, (each) => each.time < time || (including && each.time === time));
}

/** Median time between readings, days. Infinite for fewer than two. */
export function medianGap(readings: readonly Reading[]): number {
  if (readings.length < 2) return Infinity;
  return median(readings.slice(1).map(({ time }, i) => time - valueAt(readings, i).time));
}

/** Limits of the scatter, points: finer is only rounding, coarser is the fermentation itself. */
const SCATTER = { least: 0.25, most: 1.5 };
/**
 * Logs with a longer spacing, days, are kept by hand and scatter by at most half a point. Common practice, no source.
 */
const BY_HAND = { gap: 1 / 4, most: 0.5 };

// A quarter of a normal distribution lies within 0.3186 standard deviations. The line between two neighbours scatters
// too.
const OF_QUARTER = 1 / (0.3186 * Math.sqrt(1.5));

/**
 * Standard deviation of one reading, points, from the distances of readings to the line between their neighbours. The
 * lower quartile is used, so that neither spikes nor curved stretches count.
 */
export function readingScatter(readings: readonly Reading[]): number {
  const off = readings.slice(1, -1).map(({ time, gravity }, i) => {
    const [before, after] = [valueAt(readings, i), valueAt(readings, i + 2)];
    const share = (time - before.time) / (after.time - before.time);
    return Math.abs(gravity - before.gravity - share * (after.gravity - before.gravity));
  });
  const quartile = Float64Array.from(off).sort()[off.length >> 2] ?? 0;
  const most = medianGap(readings) > BY_HAND.gap ? BY_HAND.most : SCATTER.most;
  return Math.min(Math.max(OF_QUARTER * quartile, SCATTER.least), most);
}
