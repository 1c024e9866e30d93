// Our formulas in the workbook, and work on them.
import type { CellAddress } from "../../cells/place.js";
import type { RawCells } from "../../functions/contract/cell-value.js";

/** Long work: how far it is, and whether it should stop. */
export interface Work {
  /** @param total as far as it is known */
  readonly onProgress: (done: number, total: number) => void;
  /** When it aborts, the work stops after the piece it is at and rejects with the signal's reason. */
  readonly signal: AbortSignal;
}

/** A cell whose formula calls a function of ours. */
export interface OurFormula extends CellAddress {
  /** As a user types it, with "=". */
  readonly formula: string;
  readonly value: unknown;
  /** Names of instruments written in it, or standing in cells that it takes them from. As spelled there. */
  readonly instruments: readonly string[];
  /** It works a name out by itself, so it may use any instrument. */
  readonly anyInstrument: boolean;
}

/** A call of one of our functions, with the cells that it gets. */
export interface Call {
  /** Without the namespace. */
  readonly name: string;
  /** Cells, or undefined where an argument is left out. */
  readonly args: readonly (RawCells | undefined)[];
  /** There is nothing else in the formula. If there is, the cell may show something else than the call gives. */
  readonly isWhole: boolean;
}

/** What became of work on many cells. */
export interface Report {
  readonly done: number;
  /** Cells that could not be reached, each with a sentence that says why. */
  readonly failed: readonly (CellAddress & { readonly why: string })[];
}

/** Finds our formulas in the workbook and has them calculated again. */
export interface Formulas {
  /** All of them, on hidden sheets too. */
  readonly find: (work: Work) => Promise<readonly OurFormula[]>;
  /** What each formula calls now, if it calls one function of ours, with cells, numbers or texts. */
  readonly calls: (formulas: readonly OurFormula[]) => Promise<readonly (Call | undefined)[]>;
  /** Has these calculated again, and no others but those that depend on them. */
  readonly rerun: (formulas: readonly OurFormula[], work: Work) => Promise<Report>;
  /**
   * Writes another name wherever these formulas name an instrument: in their own text, or in the cells that they take it
   * from.
   */
  readonly rename: (formulas: readonly OurFormula[], from: string, to: string, work: Work) => Promise<Report>;
  /** Writes formulas anew, so that the spreadsheet program finds our functions in them. */
  readonly repair: (cells: readonly CellAddress[], work: Work) => Promise<Report>;
  /** Shows a cell to the user. */
  readonly show: (cell: CellAddress) => Promise<void>;
}
