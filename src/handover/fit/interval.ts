/** Interval of a variable. */
export interface Interval {
  readonly min: number;
  readonly max: number;
}

/** Nodes within an interval, denser towards its ends, where polynomials go wrong first. */
export function chebyshevNodes({ min, max }: Interval, count: number): number[] {
  return Array.from(
    { length: count },
    (_, k) => (min + max) / 2 - ((max - min) / 2) * Math.cos((Math.PI * (k + 0.5)) / count),
  );
}
