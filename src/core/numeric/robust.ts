import { valueAt } from "./value-at.js";

/** The middle value, or the mean of the middle two. NaN if there are none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? NaN) + upper) / 2;
}

/** Makes the median absolute deviation of normal scatter its standard deviation: 1/Φ⁻¹(3/4). */
const NORMAL = 1.4826;

/** Scatter of values about their median that a few wrong ones do not move, as a standard deviation. */
export function robustScatter(values: readonly number[]): number {
  const middle = median(values);
  return NORMAL * median(values.map((value) => Math.abs(value - middle)));
}

// Iglewicz and Hoaglin, How to Detect and Handle Outliers (ASQC 1993): modified z-scores beyond 3.5, as the NIST/SEMATECH
// e-Handbook of Statistical Methods, 1.3.5.17, recommends.
const STANDS_OUT = 3.5;

/**
 * Places of the values that stand out from the rest.
 *
 * @param taken how many numbers of a fit the values were left over from; with fewer than two more values than that,
 *   nobody can say which is wrong, and none is named
 * @param finest scatter below which no instrument is read, so that values which happen to agree condemn no others
 */
export function standingOut(values: readonly number[], taken: number, finest: number): number[] {
  if (values.length < taken + 2) return [];
  const middle = median(values);
  const most = STANDS_OUT * Math.max(robustScatter(values), finest);
  return values.flatMap((value, i) => (Math.abs(value - middle) > most ? [i] : []));
}

// Hampel's identifier in a moving window: a value farther from the median of its window than three times the scaled median
// absolute deviation stands out. Hampel, J. Am. Stat. Assoc. 69 (1974) 383–393, for the deviation; Pearson, Neuvo, Astola
// and Gabbouj, EURASIP J. Adv. Signal Process. 2016:87, doi:10.1186/s13634-016-0383-6, for the filter (both from memory).
const THRESHOLD = 3;

/**
 * Places of the values that stand out from those around them.
 *
 * The window is as wide on the left as on the right, so that a value of a falling series is the median of its own window
 * and never stands out. Towards the ends the window narrows, and the outermost values are not judged.
 *
 * @param halfWidth values on either side, at least 1
 * @param finest scatter, as a standard deviation, below which values are not told apart
 */
export function hampelOutliers(values: readonly number[], halfWidth: number, finest: number): number[] {
  const near = THRESHOLD * finest;
  return values.flatMap((value, i) => {
    const reach = Math.min(halfWidth, i, values.length - 1 - i);
    if (isNearMedian(values, i, reach, near)) return [];
    const around = values.slice(i - reach, i + reach + 1);
    const middle = median(around);
    const deviation = robustScatter(around);
    return Math.abs(value - middle) > THRESHOLD * Math.max(deviation, finest) ? [i] : [];
  });
}

/**
 * Whether the median of a window is so near to its middle value: then no half of it lies farther off on one side. Found
 * without sorting, which most windows so are spared.
 */
export function isNearMedian(values: readonly number[], i: number, reach: number, near: number): boolean {
  const value = valueAt(values, i);
  let [below, above] = [0, 0];
  for (let j = i - reach; j <= i + reach; j++) {
    const off = valueAt(values, j) - value;
    if (off < -near) below++;
    else if (off > near) above++;
  }
  return below <= reach && above <= reach;
}
