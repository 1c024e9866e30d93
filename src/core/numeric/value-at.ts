/**
 * An element that the caller knows to exist, though the compiler does not.
 *
 * @throws RangeError if it does not: a bug of ours, never bad input
 */
export function valueAt<T>(values: ArrayLike<T>, place: number): T {
  const value = values[place];
  if (value === undefined) throw new RangeError(`no value at place ${place} of ${values.length}`);
  return value;
}

/** The last element of a non-empty array. */
export const lastOf = <T>(values: ArrayLike<T>): T => valueAt(values, values.length - 1);

/**
 * Number of elements before the first one that fails a test, by binary search. All elements after that one must fail
 * too.
 */
export function partitionPoint<T>(values: ArrayLike<T>, holds: (value: T) => boolean): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(valueAt(values, middle))) low = middle + 1;
    else high = middle;
  }
  return low;
}
