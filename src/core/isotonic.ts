/**
 * Isotonic regression: the series that never rises and is nearest to the values by least squares.
 *
 * Pool adjacent violators: Ayer, Brunk, Ewing, Reid and Silverman, Ann. Math. Stat. 26 (1955) 641–647; Barlow, Bartholomew,
 * Bremner and Brunk, Statistical Inference under Order Restrictions (1972), section 1.2.
 */
export function neverRising(values: readonly number[]): number[] {
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
