import type { Area } from "../cells/area.js";
import type { ErrorValue } from "../workbook/model.js";

/** An error as it passes through a formula. The message, if any, was written by one of our own functions. */
export class FormulaError implements ErrorValue {
  constructor(
    readonly error: string,
    readonly message = "",
  ) {}
}

/** Value of one cell; null is a blank. */
export type Scalar = number | string | boolean | FormulaError | null;

/** A rectangle of values that is no longer tied to cells. */
export class Values {
  readonly height: number;
  readonly width: number;

  /** @param rows at least one row of at least one value, all equally long */
  constructor(readonly rows: readonly (readonly Scalar[])[]) {
    this.height = rows.length;
    this.width = rows[0]?.length ?? 0;
  }

  at(row: number, column: number): Scalar {
    return this.rows[row]?.[column] ?? null;
  }
}

/** Result of a formula. */
export type FormulaValue = Scalar | Values;

/** The element at a place of a larger area. A single value, row or column is repeated; anything missing is #N/A. */
export function elementAt(value: FormulaValue, row: number, column: number): Scalar {
  if (!(value instanceof Values)) return value;
  const r = value.height === 1 ? 0 : row;
  const c = value.width === 1 ? 0 : column;
  return r < value.height && c < value.width ? value.at(r, c) : formulaErrors.notAvailable;
}

/** Cells of one sheet. */
export interface PositionedArea extends Area {
  readonly sheet: number;
}

/** Errors that every cell can hold. */
export const errorCodes: ReadonlySet<string> = new Set([
  "#DIV/0!",
  "#NAME?",
  "#VALUE!",
  "#NUM!",
  "#N/A",
  "#CYCLE!",
  "#REF!",
  "#SPILL!",
  "#CALC!",
  "#ERROR!",
  "#GETTING_DATA",
  "#NULL!",
]);

export const formulaErrors = {
  value: new FormulaError("#VALUE!"),
  number: new FormulaError("#NUM!"),
  notAvailable: new FormulaError("#N/A"),
  calculation: new FormulaError("#CALC!"),
} as const;

/** A number as a cell can hold it: spreadsheets have no infinity, NaN or minus zero. */
export function finite(value: number): number | FormulaError {
  return Number.isFinite(value) ? value + 0 : formulaErrors.number;
}

/** Equal to the last bit. */
export function identical(a: Scalar, b: Scalar): boolean {
  return a instanceof FormulaError && b instanceof FormulaError ? a.error === b.error : a === b;
}

const RELATIVE_TOLERANCE = 1e-9;

/** A file stores at least 15 digits of a number. */
export const LAST_DIGITS = 1e-14;

/** Equal except for the last digits, in which spreadsheet programs may differ. */
export function alikeValues(a: Scalar, b: Scalar, tolerance = RELATIVE_TOLERANCE): boolean {
  if (typeof a === "number" && typeof b === "number")
    return a === b || Math.abs(a - b) <= tolerance * Math.max(Math.abs(a), Math.abs(b));
  return identical(a, b);
}
