import { type Range, Refusal } from "../refusal.js";
import type { Near } from "./polynomial.js";

const MOST_STEPS = 100;
/** From a near start the secant is there in four steps or so, or not on its way. */
const NEAR_STEPS = 8;

/**
 * The x in `range` where an increasing function f reaches `target`.
 *
 * Secant steps, from a near start if there is one, and else kept inside a shrinking bracket, so a nearly straight f takes a
 * few evaluations and any other monotone one still arrives. The answer is proved: f is evaluated at it and must agree to
 * `tolerance`.
 *
 * @param range where to look; also what a refusal names
 * @param target value of f that is sought
 * @param tolerance greatest |f(x) − target| that is accepted
 * @param near where to begin: saves steps, and nothing rests on it
 * @throws Refusal "no-solution" if the target lies outside f over the range, or for NaN
 */
export function invert(
  f: (x: number) => number,
  range: Range,
  target: number,
  tolerance: number,
  near?: Near,
): number {
  const x = solution(f, range, target, tolerance, near);
  if (x !== undefined) return x;
  const sought = f(range.min) - target > tolerance ? "below" : "above";
  throw new Refusal({ kind: "no-solution", range, sought });
}

/** The same, undefined where there is none. */
export function solution(
  f: (x: number) => number,
  range: Pick<Range, "min" | "max">,
  target: number,
  tolerance: number,
  near?: Near,
): number | undefined {
  return (near && fromNear(f, range, target, tolerance, near)) ?? bracketed(f, range, target, tolerance);
}

/** By secant steps alone; undefined where they lead out of the range, or do not get there. */
function fromNear(
  f: (x: number) => number,
  { min, max }: Pick<Range, "min" | "max">,
  target: number,
  tolerance: number,
  near: Near,
): number | undefined {
  let { x, slope } = near;
  let [step, before] = [0, NaN];
  for (let count = 0; count < NEAR_STEPS && x >= min && x <= max; count++) {
    const miss = f(x) - target;
    if (Math.abs(miss) <= tolerance) return x;
    if (count > 0) slope = (miss - before) / step;
    step = -miss / slope;
    before = miss;
    x += step;
  }
  return undefined;
}

function bracketed(
  f: (x: number) => number,
  { min, max }: Pick<Range, "min" | "max">,
  target: number,
  tolerance: number,
): number | undefined {
  let [lo, hi] = [min, max];
  let [x0, miss0] = [lo, f(lo) - target];
  let [x1, miss1] = [hi, f(hi) - target];
  if (!(miss0 <= tolerance && miss1 >= -tolerance)) return undefined;

  for (let step = 1; step <= MOST_STEPS; step++) {
    let x = x1 - (miss1 * (x1 - x0)) / (miss1 - miss0);
    // Halve where the secant leaves the bracket, and now and then in any case, so that the bracket must shrink.
    if (!(x >= lo && x <= hi) || step % 8 === 0) x = (lo + hi) / 2;
    const miss = f(x) - target;
    if (Math.abs(miss) <= tolerance) return x;
    if (miss < 0) lo = x;
    else hi = x;
    x0 = x1;
    miss0 = miss1;
    x1 = x;
    miss1 = miss;
  }
  return undefined;
}
