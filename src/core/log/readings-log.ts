import { partitionPoint, valueAt } from "../numeric/value-at.js";
import { median } from "../numeric/robust.js";

/** One line of a fermentation log. */
export interface Reading {
  /** Days, counted from anywhere. */
  readonly time: number;
  /** Points: 1000·(SG − 1). */
  readonly gravity: number;
}

/** Readings in the order of time; several at one time become one, by their median. */
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

/** How many readings, in order, come before a time, or are at it if `including` says so. */
export function countUntil(readings: readonly Reading[], time: number, including: boolean): number {
  return partitionPoint(readings, (each) => each.time < time || (including && each.time === time));
}

/** The usual time between readings, days. Infinite for fewer than two. */
export function medianGap(readings: readonly Reading[]): number {
  if (readings.length < 2) return Infinity;
  return median(readings.slice(1).map(({ time }, i) => time - valueAt(readings, i).time));
}

/** Scatter finer or coarser than this is not that of an instrument but of rounding, or of the fermentation itself. */
const SCATTER = { least: 0.25, most: 1.5 };
/** Readings farther apart, days, are taken by hand, and scatter by half a point at most. Common practice, no source. */
const BY_HAND = { gap: 1 / 4, most: 0.5 };

// A quarter of normal scatter lies within 0.3186 standard deviations. The line between two neighbours scatters itself.
const OF_QUARTER = 1 / (0.3186 * Math.sqrt(1.5));

/**
 * Scatter of one reading as a standard deviation, points: how far readings stand from the straight line between their
 * neighbours, by the lower quartile, so that neither spikes count nor the time in which the line is a curve.
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
