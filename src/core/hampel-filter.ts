import { median } from "./robust.js";
import { valueAt } from "./value-at.js";

// Hampel's identifier in a moving window: a value farther from the median of its window than three times the scaled median
// absolute deviation stands out. Hampel, J. Am. Stat. Assoc. 69 (1974) 383–393, for the deviation; Pearson, Neuvo, Astola
// and Gabbouj, EURASIP J. Adv. Signal Process. 2016:87, doi:10.1186/s13634-016-0383-6, for the filter (both from memory).
const THRESHOLD = 3;
const NORMAL = 1.4826;

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
    if (reach < 1 || isNearMedian(values, i, reach, near)) return [];
    const around = values.slice(i - reach, i + reach + 1);
    const middle = median(around);
    const deviation = NORMAL * median(around.map((each) => Math.abs(each - middle)));
    return Math.abs(value - middle) > THRESHOLD * Math.max(deviation, finest) ? [i] : [];
  });
}

/** Whether the median of a window is so near to its middle value: then no half of it lies farther off on one side. */
function isNearMedian(values: readonly number[], i: number, reach: number, near: number): boolean {
  const value = valueAt(values, i);
  let [below, above] = [0, 0];
  for (let j = i - reach; j <= i + reach; j++) {
    const off = valueAt(values, j) - value;
    if (off < -near) below++;
    else if (off > near) above++;
  }
  return below <= reach && above <= reach;
}
