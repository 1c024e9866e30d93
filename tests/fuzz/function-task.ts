/** Cases of one seed: the next so many have the next one. */
export const BATCH = 1000;

export interface FunctionTask {
  readonly name: string;
  readonly seed: number;
  readonly runs: number;
}

export interface FunctionReport {
  /** Cells by what they hold: numbers, strings, booleans, blanks, or the code of an error. */
  readonly counts: Readonly<Record<string, number>>;
  readonly failures: readonly string[];
  /** Milliseconds. */
  readonly slowest: number;
  readonly slowestSeed: number;
  readonly calls: number;
}
