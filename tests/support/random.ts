import fc from "fast-check";
import type { Quantity } from "../../src/core/uncertainty/uncertainty.js";

const MOST = 2 ** 31 - 1;

/** Evenly spread numbers from 0 to 1, both left out; the same for the same seed. */
export function uniform(seed: number, count: number): number[] {
  const whole = fc.noBias(fc.integer({ min: 1, max: MOST - 1 }));
  return fc.sample(whole, { seed, numRuns: count }).map((drawn) => drawn / MOST);
}

/** Draws of a quantity as JCGM 101:2008 has them: normal (6.4.7, by Box and Muller) or rectangular (6.4.2). */
export function draws(
  { value, standardUncertainty: standard, distribution: shape }: Quantity,
  uniforms: readonly number[],
  more: readonly number[],
): number[] {
  return uniforms.map((u, i) =>
    shape === "rectangular"
      ? value + standard * Math.sqrt(3) * (2 * u - 1)
      : value + standard * Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * (more[i] ?? NaN)),
  );
}
