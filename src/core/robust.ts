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
export function spread(values: readonly number[]): number {
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
  const most = STANDS_OUT * Math.max(spread(values), finest);
  return values.flatMap((value, i) => (Math.abs(value - middle) > most ? [i] : []));
}
