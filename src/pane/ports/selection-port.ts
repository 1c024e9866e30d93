// The cells that the user has selected.
import type { RawCells } from "../../functions/contract/cell-value.js";

/** Cells that the user has selected. */
export interface SelectedCells {
  /** As a formula in the selected cell's sheet would refer to it: "B2:B9", "'Brew day'!B2". */
  readonly reference: string;
  readonly rows: RawCells;
}

/** A call somewhere in a formula. */
export interface InnerCall {
  /** Without the namespace. */
  readonly name: string;
  /**
   * An argument may be the result of another call, by its place among those of the formula. Undefined if one of them cannot
   * be told from outside.
   */
  readonly args: readonly (RawCells | { readonly call: number } | undefined)[] | undefined;
  /** There is nothing else in the formula. */
  readonly isWhole: boolean;
}

/** The selected cell, as far as a formula of ours has to do with it. */
export interface SelectedFormula {
  readonly sheet: string;
  /** Of the selected cell. */
  readonly address: string;
  /** Of the cell that holds the formula: another one where it fills several. As a user types it, with "=". */
  readonly formula: string;
  /** What the selected cell shows. */
  readonly value: unknown;
  /** Rows and columns from the formula's own cell to the selected one. */
  readonly row: number;
  readonly column: number;
  /** Each after those that it contains. */
  readonly calls: readonly InnerCall[];
}

/** A cell that holds something already. */
export interface Occupied {
  readonly occupied: string;
  /** Which cell. */
  readonly at: string;
}

/** Whether a user has agreed to overwrite just this. */
export const isAgreed = (held: Occupied, agreed: Occupied | undefined): boolean =>
  held.at === agreed?.at && held.occupied === agreed.occupied;

/** The selection, and writing a formula into it. */
export interface Selection {
  readonly read: () => Promise<SelectedCells>;
  /** Cells by a reference that a user typed or that `read` gave. Rejects with a sentence for a reference that leads nowhere. */
  readonly at: (reference: string) => Promise<SelectedCells>;
  /** The formula behind the selected cell; undefined where none of ours is in it. */
  readonly formula: () => Promise<SelectedFormula | undefined>;
  /**
   * Writes a formula into the selected cell.
   *
   * @param formula with "=", arguments separated by commas
   * @param over what the user has agreed to overwrite, as it was given before; the selection may have moved since
   * @returns where it went, or what stands there already
   */
  readonly insert: (formula: string, over?: Occupied) => Promise<{ readonly inserted: string } | Occupied>;
}
