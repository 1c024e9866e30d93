import type { SheetPlace } from "../cells/place.js";
import type { CellChange } from "../workbook/model.js";
import type { Book } from "./references/book.js";

/** A cell of ours that shows an error. */
export interface CellErrorReport extends SheetPlace {
  readonly code: string;
  /** What the function had to say; empty when the error came from elsewhere. */
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
  /** A formula of ours names an instrument that is not there; only for want of it would its stored value be lost, so it was kept. */
  | "instrument-missing"
  /** A formula that ours depend on could not be calculated; its stored value was used. */
  | "stored-value-used"
  /** A formula that ours depend on comes to another value than the one stored. Nothing was written. */
  | "differs-from-stored"
  /** A dynamic array that depends on ours found no room. */
  | "no-room";

export interface Recalculation {
  /** What formulas can name in the workbook, for whoever follows them further. */
  readonly book: Book;
  /** Every cell whose value or formula area is now another; cells that came out as stored are not among them. */
  readonly changes: readonly CellChange[];
  readonly counts: {
    /** Formulas of ours, and formulas that depend on them, that were calculated. */
    readonly recalculated: number;
    /** Cells that differ from what was stored. */
    readonly changed: number;
  };
  readonly errors: readonly CellErrorReport[];
  readonly notes: readonly CellNote[];
  /**
   * Circular references that formulas of ours are part of, each with its cells in order: every formula needs the next, the
   * last one needs the first. They and whatever depends on them keep their stored values.
   */
  readonly loops: readonly (readonly SheetPlace[])[];
}

export interface RecalculationOptions {
  readonly onProgress?: (done: number, total: number) => void;
  /**
   * The workbook was saved by a program that does not calculate, so stored values prove nothing: formulas that are not ours
   * are written without being held against them.
   */
  readonly uncalculated?: boolean;
}
