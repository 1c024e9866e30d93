import type { Area } from "../cells/area.js";
/** Content of an .xlsx workbook, as far as calculation needs it. Rows and columns count from 0. */

/** An error as a cell shows it, e.g. "#VALUE!". */
export interface ErrorValue {
  readonly error: string;
}

/** A stored cell value. Dates are serial numbers, an empty cell is null. */
export type CellValue = number | string | boolean | ErrorValue | null;

export interface Formula {
  /** As stored, without the leading "="; a shared formula is already expanded for its cell. */
  readonly text: string;
  /**
   * How it calculates, not how many cells it fills; fillsSeveral tells that. "plain": one value in its own cell (an
   * array result shows its top left element). "array": entered over a fixed area. "spill": a dynamic array that takes
   * the room it needs; Excel stores every formula with a function of an add-in like this, also one of a single value.
   */
  readonly kind: "plain" | "array" | "spill";
  /** The cells that "array" and "spill" fill; as stored, so a spill may have outgrown it. */
  readonly area?: Area;
}

/** Whether a formula fills more cells than its own, by the area that its file or a calculation gives it. */
export function fillsSeveral(formula: Formula): formula is Formula & { readonly area: Area } {
  const { kind, area } = formula;
  return kind !== "plain" && area !== undefined && (area.top !== area.bottom || area.left !== area.right);
}

export interface Cell {
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
  readonly formula?: Formula;
}

/** What hides a row. SUBTOTAL leaves out what a filter hides even where it counts other hidden rows. */
export type HiddenBy = "filter" | "hand";

export interface SheetModel {
  readonly name: string;
  /** In reading order; only cells that hold a value or a formula. */
  readonly cells: readonly Cell[];
  /** Cells may be locked against changes. */
  readonly isProtected?: true;
  /** Rows that are not shown, and what hides them. */
  readonly hiddenRows?: ReadonlyMap<number, HiddenBy>;
}

export interface DefinedName {
  readonly name: string;
  /** As stored, without "=": a reference, a constant or a formula. */
  readonly refersTo: string;
  /** The sheet to which it is limited, if any. */
  readonly sheet?: string;
}

/** A table ("ListObject"), for structured references. */
export interface Table {
  readonly name: string;
  readonly sheet: string;
  readonly area: Area;
  readonly headerRows: number;
  readonly totalsRows: number;
  readonly columns: readonly string[];
  /** The cells that its filter looks at, with the heading, where it has something to choose by. */
  readonly filter?: Area;
}

export interface WorkbookModel {
  readonly sheets: readonly SheetModel[];
  readonly names: readonly DefinedName[];
  readonly tables: readonly Table[];
  /** The workbook allows circular references to iterate. */
  readonly iterates: boolean;
  /** Dates count from 1904 instead of 1900. */
  readonly since1904?: boolean;
}

/** A new value for one cell. */
export interface CellChange {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
  /**
   * undefined leaves the formula as it is, null removes it; an "area" that differs from the stored one is rewritten.
   */
  readonly formula?: Formula | null;
  /** Index of a style of the workbook, for a cell that is not in the file yet. */
  readonly style?: number;
}
