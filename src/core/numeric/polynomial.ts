import { valueAt } from "./value-at.js";

/** c[0] + c[1]·x + c[2]·x² + … */
export function polynomial(c: readonly number[], x: number): number {
  let sum = 0;
  for (let i = c.length - 1; i >= 0; i--) sum = sum * x + valueAt(c, i);
  return sum;
}

/** First derivative of `polynomial(c, x)`. */
export function slope(c: readonly number[], x: number): number {
  let sum = 0;
  for (let i = c.length - 1; i >= 1; i--) sum = sum * x + i * valueAt(c, i);
  return sum;
}
