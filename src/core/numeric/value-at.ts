/**
 * The value at a place that the caller knows to be there, which the compiler cannot.
 *
 * @throws RangeError if it is not: a fault of this program, and no one's reading
 */
export function valueAt<T>(values: ArrayLike<T>, place: number): T {
  const value = values[place];
  if (value === undefined) throw new RangeError(`no value at place ${place} of ${values.length}`);
  return value;
}

/** The last of some values, of which there is at least one. */
export const lastOf = <T>(values: ArrayLike<T>): T => valueAt(values, values.length - 1);

/** How many values from the first on have a property that, once lost, does not come back. Found by halving. */
export function partitionPoint<T>(values: ArrayLike<T>, holds: (value: T) => boolean): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(valueAt(values, middle))) low = middle + 1;
    else high = middle;
  }
  return low;
}
