import { areaText, cellAddress } from "../../cells/a1.js";
import { escapeString } from "../xml/escaped-string.js";
import { cellTextLimit } from "../../cells/limits.js";
import type { CellValue, Formula } from "../model.js";
import { hasOuterSpace } from "../xml/string-item.js";
import { escapeText } from "../xml/xml-text.js";

/** A value as stored in a <c> element. */
export interface WrittenValue {
  /** The "t" attribute; a number has none. */
  readonly type: string | undefined;
  /** The <v> or <is> element; empty for no value. */
  readonly body: string;
}

/** The only errors that the file format knows; newer ones are stored as #VALUE!. */
const fileErrors = new Set([
  "#NULL!",
  "#DIV/0!",
  "#VALUE!",
  "#REF!",
  "#NAME?",
  "#NUM!",
  "#N/A",
  "#GETTING_DATA",
]);

/**
 * Serialises a value.
 *
 * @param withFormula whether the cell has a formula: its text result is stored in <v>, plain text as an inline string
 * @param prefix of element names in this part, with ":"
 * @throws RangeError for a number or text that no cell can hold
 */
export function writeValue(value: CellValue, withFormula: boolean, prefix: string): WrittenValue {
  const v = (text: string, attribute = "") => `<${prefix}v${attribute}>${text}</${prefix}v>`;
  if (value === null) return { type: undefined, body: "" };
  if (typeof value === "number") {
    if (!Number.isFinite(value)) throw new RangeError(`${value} is no number that a cell can hold`);
    return { type: undefined, body: v(String(value)) };
  }
  if (typeof value === "boolean") return { type: "b", body: v(value ? "1" : "0") };
  if (typeof value === "object") return { type: "e", body: v(storedError(value.error)) };
  if (value.length > cellTextLimit) throw new RangeError(`a cell holds at most ${cellTextLimit} characters`);
  const text = escapeText(escapeString(value));
  const keep = ' xml:space="preserve"';
  if (withFormula) return { type: "str", body: v(text, hasOuterSpace(value) ? keep : "") };
  return { type: "inlineStr", body: `<${prefix}is><${prefix}t${keep}>${text}</${prefix}t></${prefix}is>` };
}

/** How an error is stored in a file. */
export function storedError(error: string): string {
  return fileErrors.has(error) ? error : "#VALUE!";
}

/** The <f> element of a formula. */
export function writeFormula(formula: Formula, row: number, column: number, prefix: string): string {
  const text = escapeText(escapeString(formula.text));
  if (formula.kind === "plain") return `<${prefix}f>${text}</${prefix}f>`;
  const ref = formula.area ? areaText(formula.area) : cellAddress(row, column);
  return `<${prefix}f t="array" ref="${ref}">${text}</${prefix}f>`;
}

/** A <c> element for a cell that has none yet. */
export function writeCell(
  place: { readonly row: number; readonly column: number },
  value: CellValue,
  formula: Formula | undefined,
  cm: number | undefined,
  prefix: string,
  style?: number,
): string {
  const { type, body } = writeValue(value, formula !== undefined, prefix);
  const r = ` r="${cellAddress(place.row, place.column)}"`;
  const t = type === undefined ? "" : ` t="${type}"`;
  const metadata = cm === undefined ? "" : ` cm="${cm}"`;
  const f = formula ? writeFormula(formula, place.row, place.column, prefix) : "";
  const s = style === undefined ? "" : ` s="${style}"`;
  return `<${prefix}c${r}${s}${t}${metadata}>${f}${body}</${prefix}c>`;
}
