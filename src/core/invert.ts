import type { Range } from "./range.js";
import { Refusal } from "./refusal.js";

const MOST_STEPS = 100;

/**
 * The x in `range` where an increasing function f reaches `target`.
 *
 * Secant steps kept inside a shrinking bracket, so a nearly straight f takes four or five evaluations and any other
 * monotone one still arrives. The answer is proved: f is evaluated at it and must agree to `tolerance`.
 *
 * @param range where to look; also what a refusal names
 * @param target value of f that is sought
 * @param tolerance greatest |f(x) − target| that is accepted
 * @throws Refusal "no-solution" if the target lies outside f over the range, or for NaN
 */
export function invert(f: (x: number) => number, range: Range, target: number, tolerance: number): number {
  let lo = range.min;
  let hi = range.max;
  let below = f(lo) - target;
  let above = f(hi) - target;
  const side = below > tolerance ? "below" : "above";
  if (!(below <= tolerance && above >= -tolerance))
    throw new Refusal({ kind: "no-solution", range, sought: side });

  let x = lo;
  for (let step = 0; step < MOST_STEPS; step++) {
    // Now and then halve, so that one fixed end cannot keep the secant from converging.
    x = step % 4 === 3 ? (lo + hi) / 2 : lo - (below * (hi - lo)) / (above - below);
    if (!(x >= lo)) x = lo;
    if (x > hi) x = hi;
    const miss = f(x) - target;
    if (Math.abs(miss) <= tolerance) return x;
    if (miss < 0) [lo, below] = [x, miss];
    else [hi, above] = [x, miss];
  }
  throw new Refusal({ kind: "no-solution", range, sought: side });
}
