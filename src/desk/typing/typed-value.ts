import type { CellValue } from "../../workbook/model.js";
import type { LocaleConventions } from "./locale-conventions.js";
import { typedDate } from "./typed-date.js";
import { typedNumber } from "./typed-number.js";

/** Value of a cell for a typed or pasted text. */
export interface TypedValue {
  readonly value: CellValue;
  /** The number format that shows it as typed; undefined for the default format. */
  readonly format?: string;
}

/** Errors that a workbook file can contain. */
const errors = new Set(["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"]);

/**
 * Interprets typed text as Excel does. Ambiguous text stays text and never becomes another number. Formulas are not
 * handled here.
 *
 * @param since1904 whether the workbook uses the 1904 date system
 */
export function typedValue(text: string, conventions: LocaleConventions, since1904 = false): TypedValue {
  const bare = text.trim();
  if (bare === "") return { value: text === "" ? null : text };
  const upper = bare.toUpperCase();
  if (upper === "TRUE" || upper === "FALSE") return { value: upper === "TRUE" };
  if (errors.has(upper)) return { value: { error: upper } };
  return typedNumber(bare, conventions) ?? typedDate(bare, conventions, since1904) ?? { value: text };
}
