import { Secant } from "./secant.js";

/** c[0] + c[1]·x + c[2]·x² + … */
export function polynomial(c: readonly number[], x: number): number {
  let sum = 0;
  for (let i = c.length - 1; i >= 0; i--) sum = sum * x + (c[i] as number);
  return sum;
}

/** First derivative of `polynomial(c, x)`. */
export function slope(c: readonly number[], x: number): number {
  let sum = 0;
  for (let i = c.length - 1; i >= 1; i--) sum = sum * x + i * (c[i] as number);
  return sum;
}

/** A polynomial that increases with a share of 1. */
export type IncreasingPolynomial = readonly [number, number, number, ...number[]];

/**
 * Initial guess, in percent, for where an increasing polynomial reaches a value: the solution of its first three terms.
 */
export function secantTo([c0, c1, c2]: IncreasingPolynomial, value: number): Secant {
  const slope = Math.sqrt(c1 * c1 + 4 * c2 * (value - c0));
  return new Secant((200 * (value - c0)) / (c1 + slope), slope / 100);
}
