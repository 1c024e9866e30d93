import { valueAt } from "./value-at.js";

/** How many values from the first on have a property that, once lost, does not come back. Found by halving. */
export function countWhile<T>(values: ArrayLike<T>, holds: (value: T) => boolean): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(valueAt(values, middle))) low = middle + 1;
    else high = middle;
  }
  return low;
}
