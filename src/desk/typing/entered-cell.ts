import { CellValueType, isTextFormat, type ICellData } from "@univerjs/core";
import { spelledFormula } from "./spelled-formula.js";
import type { TypedValue } from "./typed-value.js";
import { univerValue } from "../univer/univer-book.js";

/** Takes a text for what it is, as its reader means it. */
export type Read = (text: string) => TypedValue;

const plain = { f: null, si: null, p: null };

/**
 * What a cell of Univer's holds once a text has been typed or pasted into it. An apostrophe in front, or the format for texts,
 * has it taken as it is. A format is only set where the cell has none.
 *
 * @param format the number format of the cell
 */
export function enteredCell(text: string, format: string | undefined, read: Read): ICellData {
  if (isTextFormat(format)) return asText(text);
  if (text.startsWith("'")) return asText(text.slice(1));
  if (text.startsWith("=") && text.length > 1) return { ...plain, f: spelledFormula(text), v: null, t: null };
  const { value, format: shows } = read(text);
  if (typeof value === "string") return asText(value);
  const { v = null, t = null } = univerValue(value);
  const isNew = shows !== undefined && (format === undefined || format === "General");
  return { ...plain, v, t, ...(isNew ? { s: { n: { pattern: shows } } } : {}) };
}

function asText(text: string): ICellData {
  const { v = null, t = CellValueType.STRING } = univerValue(text);
  return { ...plain, v, t };
}
