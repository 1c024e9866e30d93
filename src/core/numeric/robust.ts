import { valueAt } from "./value-at.js";

/** The middle value, or the mean of the middle two. NaN if there are none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? NaN) + upper) / 2;
}

/** 1/Φ⁻¹(3/4): scales the median absolute deviation (MAD) to the standard deviation of a normal distribution. */
const MAD_TO_STANDARD_DEVIATION = 1.4826;

/** Scaled median absolute deviation: an estimate of the standard deviation that a few outliers do not affect. */
export function scaledMad(values: readonly number[]): number {
  const middle = median(values);
  return MAD_TO_STANDARD_DEVIATION * median(values.map((value) => Math.abs(value - middle)));
}

// Iglewicz and Hoaglin, How to Detect and Handle Outliers (ASQC 1993): modified z-scores beyond 3.5, as the NIST/SEMATECH
// e-Handbook of Statistical Methods, 1.3.5.17, recommends.
const OUTLIER_Z_SCORE = 3.5;

/**
 * Indexes of outliers, by modified z-score.
 *
 * @param fittedParameters number of parameters fitted to the data, if the values are residuals. At least two more
 *   values are needed, or nobody can tell which one is wrong, and none is returned
 * @param minScatter standard deviation below which no instrument is read, so that values which happen to agree do not
 *   make outliers of the others
 */
export function outliers(values: readonly number[], fittedParameters: number, minScatter: number): number[] {
  if (values.length < fittedParameters + 2) return [];
  const middle = median(values);
  const most = OUTLIER_Z_SCORE * Math.max(scaledMad(values), minScatter);
  return values.flatMap((value, i) => (Math.abs(value - middle) > most ? [i] : []));
}

// Hampel's identifier in a moving window: a value is an outlier if it is further from the median of its window than
// three times the scaled median absolute deviation. Hampel, J. Am. Stat. Assoc. 69 (1974) 383–393, for the deviation;
// Pearson, Neuvo, Astola and Gabbouj, EURASIP J. Adv. Signal Process. 2016:87, doi:10.1186/s13634-016-0383-6, for the
// filter (both from memory).
const THRESHOLD = 3;

/**
 * Indexes of outliers among their neighbours.
 *
 * The window is symmetric, so that a value of a falling series is the median of its own window and never an outlier.
 * Near the ends the window narrows, and the outermost values are not judged.
 *
 * @param halfWidth values on either side, at least 1
 * @param minScatter standard deviation below which values are not told apart
 */
export function hampelOutliers(values: readonly number[], halfWidth: number, minScatter: number): number[] {
  const near = THRESHOLD * minScatter;
  return values.flatMap((value, i) => {
    const reach = Math.min(halfWidth, i, values.length - 1 - i);
    if (isNearMedian(values, i, reach, near)) return [];
    const around = values.slice(i - reach, i + reach + 1);
    const middle = median(around);
    const deviation = scaledMad(around);
    return Math.abs(value - middle) > THRESHOLD * Math.max(deviation, minScatter) ? [i] : [];
  });
}

/**
 * Whether the middle value is so close to the median of its window that it cannot be an outlier: neither side of it
 * holds more than half of the window. Cheaper than the median itself.
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
