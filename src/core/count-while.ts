/** How many places from the first on have a property that, once lost, does not come back. Found by halving. */
export function countWhile(places: number, holds: (place: number) => boolean): number {
  let [low, high] = [0, places];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}
