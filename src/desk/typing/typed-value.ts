import type { CellValue } from "../../workbook/model.js";
import type { Conventions } from "./reader-conventions.js";
import { typedDate } from "./typed-date.js";
import { typedNumber } from "./typed-number.js";

/** What was typed or pasted, as a cell holds it. */
export interface TypedValue {
  readonly value: CellValue;
  /** The number format that shows it as it was typed; undefined for the usual one. */
  readonly format?: string;
}

/** Those that a workbook file can hold. */
const errors = new Set(["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"]);

/**
 * Takes what someone typed for what it is, as Excel does; whatever could be meant otherwise stays the text that it is, never
 * another number. Formulas are not read here.
 *
 * @param since1904 whether the workbook counts days from 1904
 */
export function typedValue(text: string, conventions: Conventions, since1904 = false): TypedValue {
  const bare = text.trim();
  if (bare === "") return { value: text === "" ? null : text };
  const upper = bare.toUpperCase();
  if (upper === "TRUE" || upper === "FALSE") return { value: upper === "TRUE" };
  if (errors.has(upper)) return { value: { error: upper } };
  return typedNumber(bare, conventions) ?? typedDate(bare, conventions, since1904) ?? { value: text };
}
