// What simulated-excel.js and the functions bundle add to a page.

interface HostAnswer {
  /** Whether the dispatcher found the function and got a result from it. */
  readonly ok: boolean;
  readonly value: unknown;
  /** When it came, ms. */
  readonly at: number;
}

/** Name and arguments, as Excel sends them. */
type HostCall = readonly [name: string, args: readonly unknown[]];

declare const simulatedExcel: {
  readonly send: (calls: readonly HostCall[], flags: number) => number[];
  readonly soFar: (ids: readonly number[]) => (HostAnswer | undefined)[];
  readonly answers: (ids: readonly number[]) => Promise<HostAnswer[]>;
};

declare const Gylesheet: typeof import("../../src/excel/functions.js");
