import { type Range, Refusal } from "../refusal.js";

const MAX_STEPS = 100;

/**
 * The x in `range` at which an increasing function f reaches `target`.
 *
 * Secant steps within a shrinking bracket: an almost linear f takes four or five evaluations, and any monotone one
 * converges. The result is verified: f evaluated at it agrees with the target to `tolerance`.
 *
 * @param range where to look; also named in a refusal
 * @param target value of f
 * @param tolerance largest |f(x) − target| accepted
 * @throws Refusal "no-solution" if the target lies outside f over the range, or for NaN
 */
export function invert(f: (x: number) => number, range: Range, target: number, tolerance: number): number {
  const x = solution(f, range, target, tolerance);
  if (x !== undefined) return x;
  throw new Refusal({
    kind: "no-solution",
    range,
    sought: f(range.min) - target > tolerance ? "below" : "above",
  });
}

/** Like `invert`, but returns undefined if there is no solution. */
export function solution(
  f: (x: number) => number,
  range: Pick<Range, "min" | "max">,
  target: number,
  tolerance: number,
): number | undefined {
  let lo = range.min;
  let hi = range.max;
  let [x0, residual0] = [lo, f(lo) - target];
  let [x1, residual1] = [hi, f(hi) - target];
  if (!(residual0 <= tolerance && residual1 >= -tolerance)) return undefined;

  for (let step = 1; step <= MAX_STEPS; step++) {
    let x = x1 - (residual1 * (x1 - x0)) / (residual1 - residual0);
    // Bisect when the secant leaves the bracket, and every eighth step in any case, so that the bracket is sure to
    // shrink.
    if (!(x >= lo && x <= hi) || step % 8 === 0) x = (lo + hi) / 2;
    const residual = f(x) - target;
    if (Math.abs(residual) <= tolerance) return x;
    if (residual < 0) lo = x;
    else hi = x;
    x0 = x1;
    residual0 = residual1;
    x1 = x;
    residual1 = residual;
  }
  return undefined;
}
