// Our formulas in the workbook, and operations on them.
import type { CellAddress } from "../../cells/place.js";
import type { RawCells } from "../../functions/contract/cell-value.js";

/** Progress and cancellation of long work. */
export interface Work {
  /** @param total as far as it is known */
  readonly onProgress: (done: number, total: number) => void;
  /** If it aborts, the work stops after the current step and rejects with the signal's reason. */
  readonly signal: AbortSignal;
}

/** A cell whose formula calls one of our functions. */
export interface OurFormula extends CellAddress {
  /** As a user types it, with "=". */
  readonly formula: string;
  readonly value: unknown;
  /** Names of instruments in its text or in cells that it refers to, as spelled there. */
  readonly instruments: readonly string[];
  /** It computes a name, so it may use any instrument. */
  readonly anyInstrument: boolean;
}

/** A call of one of our functions, with the cells passed to it. */
export interface Call {
  /** Without the namespace. */
  readonly name: string;
  /** Cells, or undefined if an argument is omitted. */
  readonly args: readonly (RawCells | undefined)[];
  /** The formula contains nothing else. Otherwise the cell may show something other than the result of the call. */
  readonly isWhole: boolean;
}

/** Result of work on many cells. */
export interface Report {
  readonly done: number;
  /** Cells that could not be reached, each with a sentence that says why. */
  readonly failed: readonly (CellAddress & { readonly why: string })[];
}

/** Finds our formulas in the workbook and recalculates them. */
export interface Formulas {
  /** Finds all of them, including on hidden sheets. */
  readonly find: (work: Work) => Promise<readonly OurFormula[]>;
  /** The current call of each formula, if it makes a single call of ours with cells, numbers or texts. */
  readonly calls: (formulas: readonly OurFormula[]) => Promise<readonly (Call | undefined)[]>;
  /** Recalculates these formulas, and no others except their dependents. */
  readonly recalculate: (formulas: readonly OurFormula[], work: Work) => Promise<Report>;
  /** Renames an instrument wherever these formulas name it: in their text, or in the cells they take it from. */
  readonly rename: (formulas: readonly OurFormula[], from: string, to: string, work: Work) => Promise<Report>;
  /** Rewrites formulas so that the spreadsheet program finds our functions. */
  readonly repair: (cells: readonly CellAddress[], work: Work) => Promise<Report>;
  /** Shows a cell to the user. */
  readonly show: (cell: CellAddress) => Promise<void>;
}
