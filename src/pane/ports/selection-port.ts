// The user's selection.
import type { RawCells } from "../../functions/contract/cell-value.js";

/** Cells that the user has selected. */
export interface SelectedCells {
  /** As a formula in the selected cell's sheet would refer to them: "B2:B9", "'Brew day'!B2". */
  readonly reference: string;
  readonly rows: RawCells;
}

/** A call somewhere in a formula. */
export interface InnerCall {
  /** Without the namespace. */
  readonly name: string;
  /**
   * An argument may be the result of another call, given by its index among the calls of the formula. Undefined if one
   * of them cannot be determined from outside.
   */
  readonly args: readonly (RawCells | { readonly call: number } | undefined)[] | undefined;
  /** The formula contains nothing else. */
  readonly isWhole: boolean;
}

/** The selected cell, if its value comes from one of our formulas. */
export interface SelectedFormula {
  readonly sheet: string;
  /** Of the selected cell. */
  readonly address: string;
  /** Of the cell that holds the formula, which may be another one if it spills. As a user types it, with "=". */
  readonly formula: string;
  /** Value of the selected cell. */
  readonly value: unknown;
  /** Rows and columns from the formula's own cell to the selected one. */
  readonly row: number;
  readonly column: number;
  /** Each comes after the calls inside it. */
  readonly calls: readonly InnerCall[];
}

/** A cell that is not blank. */
export interface Occupied {
  readonly occupied: string;
  /** Its address. */
  readonly at: string;
}

/** Whether the user has agreed to overwrite exactly this content. */
export const isAgreed = (held: Occupied, agreed: Occupied | undefined): boolean =>
  held.at === agreed?.at && held.occupied === agreed.occupied;

/** The selection, and writing a formula into it. */
export interface Selection {
  readonly read: () => Promise<SelectedCells>;
  /**
   * Cells of a reference that a user typed or that `read` returned. Rejects with a sentence if it refers to no cells.
   */
  readonly at: (reference: string) => Promise<SelectedCells>;
  /** The formula behind the selected cell; undefined if it does not call our functions. */
  readonly formula: () => Promise<SelectedFormula | undefined>;
  /**
   * Writes a formula into the selected cell.
   *
   * @param formula with "=", arguments separated by commas
   * @param over what the user has agreed to overwrite, as returned before; the selection may have moved since
   * @returns where it was inserted, or what the cell already holds
   */
  readonly insert: (formula: string, over?: Occupied) => Promise<{ readonly inserted: string } | Occupied>;
}
