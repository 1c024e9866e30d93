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

/** A place that is near what is sought, and how steep a function is there. */
export interface Near {
  readonly x: number;
  readonly slope: number;
}

/** Where a rising polynomial comes near a value: where its first three terms reach it. NaN if they never do. */
export function nearValue(c: readonly [number, number, number, ...number[]], value: number): Near {
  const [c0, c1, c2] = c;
  const slope = Math.sqrt(c1 * c1 + 4 * c2 * (value - c0));
  return { x: (2 * (value - c0)) / (c1 + slope), slope };
}

/** The same by percent, of a polynomial by mass fractions. */
export const inPercent = ({ x, slope }: Near): Near => ({ x: 100 * x, slope: slope / 100 });
