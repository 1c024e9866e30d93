import { CellValueType, isTextFormat, type ICellData } from "@univerjs/core";
import { spelledFormula } from "./spelled-formula.js";
import type { TypedValue } from "./typed-value.js";
import { univerValue } from "../univer/univer-book.js";

/** Interprets a typed text according to the user's conventions. */
export type ReadEntry = (text: string) => TypedValue;

const plain = { f: null, si: null, p: null };

/**
 * Content of a Univer cell after a text was typed or pasted into it. A leading apostrophe or the text format keeps it
 * as text. A format is set only if the cell has none.
 *
 * @param format the number format of the cell
 */
export function enteredCell(text: string, format: string | undefined, read: ReadEntry): ICellData {
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
