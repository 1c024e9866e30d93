import { appendFileSync, readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";
import { expect } from "vitest";

type Row = Readonly<Record<string, string>>;

/** Rows of a table in tests/reference; its header lines name the source. */
export function reference(name: string): Row[] {
  const text = readFileSync(new URL(`../reference/${name}.csv`, import.meta.url), "utf8");
  return parse(text, {
    columns: true,
    comment: "#",
    comment_no_infix: true,
    skip_empty_lines: true,
    relax_quotes: true,
  });
}

/** A number of a row; NaN where the table has none, so that no comparison with it can pass. */
export function figure(row: Row | undefined, column: string): number {
  const text = row?.[column];
  return text === undefined || text === "" ? NaN : Number(text);
}

/** The rows that have a number in a column. */
export function rowsWith(name: string, column: string): Row[] {
  return reference(name).filter((row) => !Number.isNaN(figure(row, column)));
}

/** Greatest absolute difference over rows, and where it is. A row that gives NaN is the greatest of all. */
export function worst<T>(
  rows: readonly T[],
  difference: (row: T) => number,
): { by: number; at: T | undefined } {
  let found = { by: 0, at: undefined as T | undefined };
  for (const row of rows) {
    const by = Math.abs(difference(row));
    if (Number.isNaN(by)) return { by: Infinity, at: row };
    if (by > found.by) found = { by, at: row };
  }
  report(found.by);
  return found;
}

/** For the benchmark, which lists how far each printed table is missed: a line for every comparison of a test. */
function report(by: number): void {
  const file = process.env["DEVIATIONS"];
  if (file) appendFileSync(file, `${JSON.stringify({ test: expect.getState().currentTestName, by })}\n`);
}

export const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** Sample standard deviation. */
export function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, v) => sum + (v - middle) ** 2, 0) / (values.length - 1));
}
