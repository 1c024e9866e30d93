import { partitionPoint, valueAt } from "./value-at.js";

/**
 * Isotonic regression: the series that never rises and is nearest to the values in the least-squares sense.
 *
 * Pool adjacent violators: Ayer, Brunk, Ewing, Reid and Silverman, Ann. Math. Stat. 26 (1955) 641–647; Barlow,
 * Bartholomew, Bremner and Brunk, Statistical Inference under Order Restrictions (1972), section 1.2.
 */
export function isotonicRegression(values: readonly number[]): number[] {
  const blocks: { mean: number; size: number }[] = [];
  for (const value of values) {
    let block = { mean: value, size: 1 };
    for (let above = blocks.at(-1); above && above.mean < block.mean; above = blocks.at(-1)) {
      blocks.pop();
      const size = above.size + block.size;
      block = { mean: (above.mean * above.size + block.mean * block.size) / size, size };
    }
    blocks.push(block);
  }
  return blocks.flatMap(({ mean, size }) => Array<number>(size).fill(mean));
}

/**
 * Indexes of the longest subsequence of values in which none exceeds the one before it by more than a tolerance. The
 * values left out contradict a series that can only fall.
 *
 * Patience sorting with a tree of maxima over the values: n·log n.
 */
export function longestFallingSubsequence(values: readonly number[], tolerance: number): number[] {
  const ranked = Float64Array.from(new Set(values)).sort().reverse(); // highest first
  // best[node]: the longest subsequence that ends at one of the values covered by the node, by its length and last
  // index
  const length = new Int32Array(ranked.length + 1);
  const end = new Int32Array(ranked.length + 1);
  const before = new Int32Array(values.length);
  const countAtLeast = (value: number): number => partitionPoint(ranked, (each) => each >= value);
  let [last, longest] = [-1, 0];
  values.forEach((value, i) => {
    let [most, from] = [0, -1];
    for (let node = countAtLeast(value - tolerance); node > 0; node -= node & -node)
      if (valueAt(length, node) > most) [most, from] = [valueAt(length, node), valueAt(end, node)];
    before[i] = from;
    if (most + 1 > longest) [longest, last] = [most + 1, i];
    for (let node = countAtLeast(value); node <= ranked.length; node += node & -node)
      if (most + 1 > valueAt(length, node)) [length[node], end[node]] = [most + 1, i];
  });
  const run: number[] = [];
  for (let i = last; i >= 0; i = valueAt(before, i)) run.push(i);
  return run.reverse();
}
