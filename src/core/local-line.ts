import type { Reading } from "./ferment-log.js";

/** A least-squares line through readings: gravity at a time, and its slope, points per day. */
export interface LocalLine {
  readonly gravity: number;
  readonly slope: number;
}

/**
 * Lines through the readings near to given times, in the order of time, each found from sums that run along with it.
 *
 * @param times in order
 * @param near days to either side
 * @param least so many readings are taken however far they are: then the nearest ones on either side
 */
export function localLines(
  readings: readonly Reading[],
  times: readonly number[],
  near: number,
  least: number,
): LocalLine[] {
  const origin = readings[0]?.time ?? 0;
  const sums = runningSums(readings, origin);
  let [from, to] = [0, 0];
  return times.map((time) => {
    while (to < readings.length && (readings[to]?.time ?? Infinity) <= time + near) to++;
    while (from < to && (readings[from]?.time ?? Infinity) < time - near) from++;
    let [first, end] = [from, to];
    if (end - first < least) [first, end] = widened(readings, time, first, end);
    return lineThrough(sums, first, end, time - origin);
  });
}

/** One reading more on either side, where there is one that is not at this very time. */
function widened(readings: readonly Reading[], time: number, first: number, end: number): [number, number] {
  const at = (i: number): number => readings[i]?.time ?? NaN;
  const needsBefore = first > 0 && !(first < end && at(first) < time);
  const needsAfter = end < readings.length && !(first < end && at(end - 1) > time);
  return [needsBefore ? first - 1 : first, needsAfter ? end + 1 : end];
}

/** Sums over the readings before each place: of t, g, t² and t·g. */
type Sums = readonly [Float64Array, Float64Array, Float64Array, Float64Array];

function runningSums(readings: readonly Reading[], origin: number): Sums {
  const column = (of: (t: number, g: number) => number): Float64Array => {
    const sums = new Float64Array(readings.length + 1);
    readings.forEach(({ time, gravity }, i) => {
      sums[i + 1] = (sums[i] ?? 0) + of(time - origin, gravity);
    });
    return sums;
  };
  return [column((t) => t), column((_, g) => g), column((t) => t * t), column((t, g) => t * g)];
}

/** Times of readings are told apart down to about a second. */
const MOMENT = 1e-5;

function lineThrough(sums: Sums, first: number, end: number, t: number): LocalLine {
  const n = end - first;
  const [meanT = NaN, meanG = NaN, meanTT = NaN, meanTG = NaN] = sums.map(
    (sum) => ((sum[end] ?? NaN) - (sum[first] ?? NaN)) / n,
  );
  const spread = meanTT - meanT * meanT;
  const slope = spread > MOMENT * MOMENT ? (meanTG - meanT * meanG) / spread : 0;
  return { gravity: meanG + slope * (t - meanT), slope };
}
