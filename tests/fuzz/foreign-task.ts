export interface ForeignTask {
  /** Folder of the project. */
  readonly root: string;
  readonly paths: readonly string[];
  readonly seed: number;
}

export interface ForeignReport {
  readonly counts: Readonly<Record<string, number>>;
  /** Why workbooks were refused, with how many and one of them. */
  readonly refusals: Readonly<Record<string, Seen>>;
  /** Why formulas were kept as they were, likewise. */
  readonly notes: Readonly<Record<string, Seen>>;
  readonly failures: readonly string[];
}

export interface Seen {
  readonly count: number;
  readonly in: string;
}
