// What goes out to Excel, cell by cell, as it stands in the message.
import { expect } from "vitest";

/** An error in a cell, as Office.js writes it. */
export interface HostError {
  readonly code: string;
  readonly message?: string;
}

const isObject = (value: unknown): value is object => typeof value === "object" && value !== null;

export const isError = (cell: unknown): cell is HostError =>
  isObject(cell) && "valueType" in cell && cell.valueType === "CustomFunctionError";

/** Only these carry a message as far as the user. */
const speaking: readonly string[] = ["#VALUE!", "#N/A"];
const silent: readonly string[] = ["#DIV/0!", "#NUM!", "#NULL!"];

/** A sentence or more, on one line: a beginning, an end, no half of a character, and short enough to be read. */
const isSentence = (text: string | undefined): boolean =>
  text !== undefined && /^["A-Z\d].{9,498}[.?]$/u.test(text) && !/\p{Surrogate}/u.test(text);

/** Whether a cell may go out. In JSON, NaN, Infinity, null and undefined have all become null. */
function isSound(cell: unknown): boolean {
  if (isError(cell))
    return speaking.includes(cell.code)
      ? isSentence(cell.message)
      : silent.includes(cell.code) && !("message" in cell);
  return typeof cell === "number" || typeof cell === "string" || typeof cell === "boolean";
}

/** The cells of an answer: a rectangle, with nothing in it that Excel would not show as it is meant. */
export function cellsOf(call: HostCall, answer: HostAnswer | undefined): unknown[][] {
  const label = JSON.stringify(call).slice(0, 2000);
  if (answer?.ok !== true) expect.fail(`${label} had no result: ${JSON.stringify(answer)}`);
  const rows = answer.value as unknown[][];
  const widths = new Set(Array.isArray(rows) ? rows.map((row) => row.length) : []);
  if (widths.size !== 1 || widths.has(0)) expect.fail(`${label} gave no rectangle: ${JSON.stringify(rows)}`);
  const unsound = rows.flat().filter((cell) => !isSound(cell));
  if (unsound.length > 0) expect.fail(`${label} gave ${JSON.stringify(unsound)}`);
  return rows;
}
