// Takes pairs from cells without guessing: anything that is not a number is reported, and then nothing is taken.
import { MAX_PAIRS } from "../../instruments/schema.js";
import { cellAt } from "../../changes/cell-name.js";
import type { Column } from "./calibration-pairs.js";
import { fieldNames } from "./calibration-words.js";
import type { FunctionsPort } from "../ports/functions-port.js";
import type { SelectedCells } from "../ports/selection-port.js";

export interface Taken {
  readonly pairs: readonly Partial<Record<Column, string>>[];
  /** The outcome, in a sentence. */
  readonly says: string;
}

const ERRORS = /^#(N\/A|VALUE!|REF!|DIV\/0!|NUM!|NAME\?|NULL!|SPILL!|CALC!|BUSY!|GETTING_DATA)$/;

const isBlank = (cell: unknown): boolean =>
  cell === undefined || cell === null || (typeof cell === "string" && cell.trim() === "");

/** Whether a row contains only words without digits, as headings do. */
const isHeading = (row: readonly unknown[]): boolean =>
  row.some((cell) => !isBlank(cell)) &&
  row.every((cell) => isBlank(cell) || (typeof cell === "string" && !/\d/.test(cell) && !ERRORS.test(cell)));

function problemOf(
  cell: unknown,
  column: Column,
  { textNotNumber }: FunctionsPort["sentences"],
): string | undefined {
  const label = fieldNames[column];
  if (typeof cell === "number") return Number.isFinite(cell) ? undefined : `The ${label} is no number.`;
  if (isBlank(cell)) return `The ${label} is missing.`;
  if (typeof cell === "boolean") return `The ${label} is ${cell ? "TRUE" : "FALSE"}; a number is needed.`;
  const text = String(cell);
  if (ERRORS.test(text)) return `The ${label} is an error, ${text}.`;
  return textNotNumber(label, text, "A number is needed.");
}

const counted = (n: number, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;

function skipped(headings: number, blanks: number): string {
  const parts = [
    ...(headings > 0 ? [counted(headings, "heading row", "heading rows")] : []),
    ...(blanks > 0 ? [counted(blanks, "blank row", "blank rows")] : []),
  ];
  return parts.length === 0 ? "" : ` ${parts.join(" and ")} skipped.`;
}

/** Columns of a selection of this width; the temperature may be omitted. */
function columnsOf(width: number, columns: readonly Column[]): readonly Column[] | undefined {
  const needed = columns.filter((column) => column !== "temperature");
  return [columns, needed].find((each) => each.length === width);
}

const naming = (columns: readonly Column[]): string =>
  `${columns.length} (${columns.map((column) => fieldNames[column]).join(", ")})`;

/**
 * Takes pairs from cells, one per row; headings above and blank rows are allowed.
 *
 * @param columns of a pair; the temperature may be omitted
 * @returns every problem with its cell, if there are any
 */
export function takePairs(
  { reference, rows }: SelectedCells,
  columns: readonly Column[],
  sentences: FunctionsPort["sentences"],
): Taken | { readonly problems: readonly string[] } {
  const width = rows[0]?.length ?? 0;
  const found = columnsOf(width, columns);
  if (!found) {
    const needed = columns.filter((column) => column !== "temperature");
    const ways = [...new Set([naming(needed), naming(columns)])].join(" or ");
    return {
      problems: [`${reference} has ${counted(width, "column", "columns")}; select ${ways}.`],
    };
  }
  const first = rows.findIndex((row) => row.some((cell) => !isBlank(cell)) && !isHeading(row));
  const headings = rows.slice(0, Math.max(first, 0)).filter(isHeading).length;
  const filled = rows.flatMap((row, down) => (down < first || row.every(isBlank) ? [] : [{ row, down }]));
  if (first < 0 || filled.length === 0)
    return { problems: [`There are no numbers in ${reference}. Select the cells that hold the pairs.`] };
  if (filled.length > MAX_PAIRS)
    return { problems: [`${reference} holds ${filled.length} pairs; allowed are ${MAX_PAIRS}.`] };
  const problems = filled.flatMap(({ row, down }) =>
    found.flatMap((column, across) => {
      const problem = problemOf(row[across], column, sentences);
      return problem === undefined ? [] : [`${cellAt(reference, down, across)}: ${problem}`];
    }),
  );
  if (problems.length > 0) return { problems };
  return {
    pairs: filled.map(({ row }) =>
      Object.fromEntries(found.map((column, across) => [column, String(row[across])])),
    ),
    says: `${counted(filled.length, "pair", "pairs")} taken from ${reference}.${skipped(headings, rows.length - headings - filled.length)}`,
  };
}
