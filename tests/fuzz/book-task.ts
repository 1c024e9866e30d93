export interface BookTask {
  /** Folder of the project. */
  readonly root: string;
  readonly seed: number;
  readonly step: number;
  readonly books: number;
}

export interface BookReport {
  readonly counts: Readonly<Record<string, number>>;
  readonly failures: readonly string[];
  /** Milliseconds. */
  readonly slowest: number;
  readonly slowestSeed: number;
  /** Bytes of the process at most. */
  readonly memory: number;
}
