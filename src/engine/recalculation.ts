import type { SheetPlace } from "../cells/place.js";
import type { CellChange } from "../workbook/model.js";
import type { Book } from "./references/book.js";

/** A cell of ours that shows an error. */
export interface CellErrorReport extends SheetPlace {
  readonly code: string;
  /** The function's message; empty if the error came from elsewhere. */
  readonly message: string;
}

export interface CellNote extends SheetPlace {
  readonly kind: NoteKind;
  /** A sentence for the user. */
  readonly message: string;
}

export type NoteKind =
  /** A formula is ours or depends on ours, but was not written, for a reason; its stored value may be out of date. */
  | "left-as-it-was"
  /**
   * A formula of ours names a missing instrument, and its stored value was kept because it would be lost for no other
   * reason.
   */
  | "instrument-missing"
  /** A formula that ours depend on could not be calculated; its stored value was used. */
  | "stored-value-used"
  /** A formula that ours depend on gives another value than the stored one. Nothing was written. */
  | "differs-from-stored"
  /** A dynamic array that depends on ours is blocked. */
  | "no-room";

export interface Recalculation {
  /** What formulas can name in the workbook. */
  readonly book: Book;
  /** Every cell whose value or formula area changed. */
  readonly changes: readonly CellChange[];
  readonly counts: {
    /** Calculated formulas that are ours or depend on ours. */
    readonly recalculated: number;
    /** Cells that differ from their stored values. */
    readonly changed: number;
  };
  readonly errors: readonly CellErrorReport[];
  readonly notes: readonly CellNote[];
  /** Plain formulas that came to several values, of which their cells show the first. */
  readonly cutOff: readonly SheetPlace[];
  /**
   * Circular references that include formulas of ours, each with its cells in order: every formula needs the next, the
   * last one needs the first. They and whatever depends on them keep their stored values.
   */
  readonly cycles: readonly (readonly SheetPlace[])[];
}

export interface RecalculationOptions {
  readonly onProgress?: (done: number, total: number) => void;
  /**
   * The workbook was saved by a program that does not calculate, so stored values prove nothing: native formulas are
   * written without comparison.
   */
  readonly uncalculated?: boolean;
}
