import type { CellAddress } from "../cells/place.js";
// What the pane asks of the program around it. Each host (Excel, the desk, a test) brings its own.
import type { PartStore } from "../instruments/keeper.js";
import type { Call, FunctionsPort, Rows } from "./functions/functions-port.js";

export type * from "./functions/functions-port.js";

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

/** A call somewhere in a formula. */
export interface InnerCall {
  /** Without the namespace. */
  readonly name: string;
  /**
   * An argument may be the result of another call, by its place among those of the formula. Undefined if one of them cannot
   * be told from outside.
   */
  readonly args: readonly (Rows | { readonly call: number } | undefined)[] | undefined;
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

/** Cells that the user has selected. */
export interface SelectedCells {
  /** As a formula in the selected cell's sheet would refer to it: "B2:B9", "'Brew day'!B2". */
  readonly reference: string;
  readonly rows: Rows;
}

/** The selection, and writing a formula into it. */
export interface Selection {
  readonly read: () => Promise<SelectedCells>;
  /** Cells by a reference that a user typed or that `read` gave. Rejects with a sentence for a reference that leads nowhere. */
  readonly at: (reference: string) => Promise<SelectedCells>;
  /** The formula behind the selected cell; undefined where none of ours is in it. */
  readonly formula: () => Promise<SelectedFormula | undefined>;
  /** Calls back when another cell is selected, or the selected one may show something else. */
  readonly watch: (look: () => void) => void;
  /**
   * Writes a formula into the selected cell.
   *
   * @param formula with "=", arguments separated by commas
   * @param over what the user has agreed to overwrite, as it was given before; the selection may have moved since
   * @returns where it went, or what stands there already
   */
  readonly insert: (formula: string, over?: Occupied) => Promise<{ readonly inserted: string } | Occupied>;
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

/** Files of the user's. */
export interface Files {
  /**
   * Offers a file for saving.
   *
   * @returns "shown" where this host lets no page save files: nothing was offered, so the text has to be shown for copying
   */
  readonly save: (name: string, text: string, type: string) => "saved" | "shown";
}

/** Something that is wrong with the workbook, or worth a look. */
export interface ShownFinding {
  readonly kind: string;
  /** A fault makes a number wrong or missing, a doubt may, a note is to know. */
  readonly severity: "fault" | "doubt" | "note";
  /** Missing for what concerns the whole workbook. */
  readonly sheet?: string;
  /** Such as "E4:E9". Empty for what concerns a whole sheet or more. */
  readonly cells: readonly string[];
  readonly count: number;
  /** What it is, and what to do. */
  readonly says: string;
}

/** A workbook that was looked through. */
export interface Checked {
  /** Sheets with formulas of ours. */
  readonly sheets: readonly {
    readonly sheet: string;
    readonly isProtected: boolean;
    readonly formulas: number;
    readonly errors: number;
    /** Which of our functions they call, without the namespace, and where. */
    readonly functions: readonly { readonly name: string; readonly cells: readonly string[] }[];
  }[];
  /** The gravest first. */
  readonly findings: readonly ShownFinding[];
  /** Formulas that the spreadsheet program does not tie to our functions. */
  readonly unbound: readonly CellAddress[];
}

/** How a workbook is handed over: as it is, as values, or live without the add-in. */
export type HandOverWay = "share" | "values" | "live";

/** A copy that was made for someone else. */
export interface HandedOverFile {
  /** Where it is now, in a sentence. */
  readonly where: string;
  /** Cells with formulas of ours. */
  readonly formulas: number;
  /** Those that go on calculating without the add-in. */
  readonly live: number;
  /** Those that were meant to and are values, with the reason. */
  readonly notLive: readonly (CellAddress & { readonly why: string })[];
  /** Those that show an error. */
  readonly errors: readonly CellAddress[];
}

/** Everything around the pane. */
export interface Host {
  readonly parts: PartStore;
  readonly formulas: Formulas;
  readonly selection: Selection;
  readonly functions: FunctionsPort;
  readonly files: Files;
  /** Looks through the workbook. Changes nothing. */
  readonly check: (work: Work) => Promise<Checked>;
  /** Makes a copy of the workbook for someone else. The workbook itself stays as it is. */
  readonly handOver: (way: HandOverWay, work: Work) => Promise<HandedOverFile>;
  /** Name, version and host, in a sentence. */
  readonly version: string;
  /** Where the help pages are, ending in "/". */
  readonly help: string;
  /** Calls back when someone else may have changed the instruments. */
  readonly onOthersEdit: (look: () => void) => void;
}
