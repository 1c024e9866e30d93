import { countUntil, type Reading } from "./readings-log.js";
import { valueAt } from "../numeric/value-at.js";

/** A local least-squares line: gravity at a time, and slope in points per day. */
export interface LocalLine {
  readonly gravity: number;
  readonly slope: number;
}

/**
 * Least-squares lines through the readings near a time, computed from running sums over all of them.
 *
 * @param readings in order, at least one
 * @param near days to either side
 * @param least minimum number of readings; the nearest ones on either side are taken, however far away
 */
export function localLine(
  readings: readonly Reading[],
  near: number,
  least: number,
): (time: number) => LocalLine {
  const origin = valueAt(readings, 0).time;
  const sums = runningSums(readings, origin);
  return (time) => {
    let first = countUntil(readings, time - near, false);
    let end = countUntil(readings, time + near, true);
    if (end - first < least) [first, end] = widened(readings, time, first, end);
    return lineThrough(sums, first, end, time - origin);
  };
}

/** Widens the window by one reading on either side, skipping readings at this very time. */
function widened(readings: readonly Reading[], time: number, first: number, end: number): [number, number] {
  const at = (i: number): number => valueAt(readings, i).time;
  const needsBefore = first > 0 && !(first < end && at(first) < time);
  const needsAfter = end < readings.length && !(first < end && at(end - 1) > time);
  return [needsBefore ? first - 1 : first, needsAfter ? end + 1 : end];
}

/** Sums over the readings before each place. */
interface Sums {
  readonly t: Float64Array;
  readonly g: Float64Array;
  readonly tt: Float64Array;
  readonly tg: Float64Array;
}

function runningSums(readings: readonly Reading[], origin: number): Sums {
  const empty = (): Float64Array => new Float64Array(readings.length + 1);
  const sums: Sums = { t: empty(), g: empty(), tt: empty(), tg: empty() };
  readings.forEach(({ time, gravity }, i) => {
    const t = time - origin;
    sums.t[i + 1] = valueAt(sums.t, i) + t;
    sums.g[i + 1] = valueAt(sums.g, i) + gravity;
    sums.tt[i + 1] = valueAt(sums.tt, i) + t * t;
    sums.tg[i + 1] = valueAt(sums.tg, i) + t * gravity;
  });
  return sums;
}

/** Times closer than this, about a second, count as equal. */
const MOMENT = 1e-5;

function lineThrough(sums: Sums, first: number, end: number, t: number): LocalLine {
  const mean = (sum: Float64Array): number => (valueAt(sum, end) - valueAt(sum, first)) / (end - first);
  const [meanT, meanG] = [mean(sums.t), mean(sums.g)];
  const spread = mean(sums.tt) - meanT * meanT;
  const slope = spread > MOMENT * MOMENT ? (mean(sums.tg) - meanT * meanG) / spread : 0;
  return { gravity: meanG + slope * (t - meanT), slope };
}
