// What the pane asks of the functions bundle.
import type { Reason } from "../../core/refusal.js";
import type { Step } from "../../core/steps.js";
import type { Course } from "../../functions/fermentation-course.js";
import type { Kind } from "../../instruments/schema.js";
import type { InstrumentSet } from "../../instruments/set.js";

/** Rows of cells. */
export type Rows = readonly (readonly unknown[])[];

/** A call of one of our functions, with the cells that it gets. */
export interface Call {
  /** Without the namespace. */
  readonly name: string;
  /** Cells, or undefined where an argument is left out. */
  readonly args: readonly (Rows | undefined)[];
  /** There is nothing else in the formula. If there is, the cell may show something else than the call gives. */
  readonly isWhole: boolean;
}

/** An error as a cell shows it. */
export interface CellProblem {
  readonly code: string;
  readonly message: string;
}

export type CellResult = number | string | boolean | CellProblem;

/** How one cell comes about. */
export interface ShownExplanation {
  readonly given: readonly { readonly name: string; readonly value: number | string | boolean }[];
  readonly steps: readonly Step[];
  readonly warnings: readonly string[];
  readonly result: CellResult;
  /** How sure the result is: by which function, and ± at k = 2 or why not; undefined if more has to be known for it. */
  readonly uncertainty: { readonly by: string; readonly plusMinus: CellResult | undefined } | undefined;
}

/** What the list of functions shows. */
export interface FunctionInfo {
  /** Without the namespace. */
  readonly name: string;
  readonly topic: string;
  /** What one wants to know when one needs it. */
  readonly question: string;
  readonly summary: string;
  readonly returns: string;
  readonly examples: readonly { readonly formula: string; readonly says: string }[];
  readonly method: string;
  readonly caution?: string;
  /** Each cell of its result depends on the arguments of its own place only, or on those of its row, one of each. */
  readonly goesBy?: "cell" | "row";
  readonly parameters: readonly {
    readonly name: string;
    readonly description: string;
    readonly optional: boolean;
    readonly namesInstrument: boolean;
    /** Of such a parameter: the only kind that serves. */
    readonly instrumentKind: Kind | undefined;
    readonly choices: readonly string[];
  }[];
}

/** The cell functions, as the functions bundle has them. */
export interface FunctionsPort {
  /** Sentences of theirs, so that the pane says the same. */
  readonly sentences: {
    readonly refusal: (reason: Reason) => string;
    /** Of text where a number belongs. @param otherwise what to do where it does not look like a number */
    readonly textNotNumber: (label: string, text: string, otherwise: string) => string;
  };
  readonly list: readonly FunctionInfo[];
  /** What a function would give with these arguments and instruments. Changes nothing. */
  readonly evaluate: (
    name: string,
    args: Call["args"],
    set: InstrumentSet,
  ) => readonly (readonly CellResult[])[];
  /** Rows and columns of what a function would give. */
  readonly shape: (
    name: string,
    args: Call["args"],
    set: InstrumentSet,
  ) => { readonly rows: number; readonly columns: number };
  /** What one cell of a result would show. @param row @param column of the result, from 0 */
  readonly at: (
    name: string,
    args: Call["args"],
    row: number,
    column: number,
    set: InstrumentSet,
  ) => CellResult;
  /** How one cell of a result comes about. @param row @param column of the result, from 0 */
  readonly explain: (
    name: string,
    args: Call["args"],
    row: number,
    column: number,
    set: InstrumentSet,
  ) => ShownExplanation;
  /**
   * How sure each cell of a result is: expanded uncertainty (k = 2) in the result's own units. Undefined where no function
   * says so, or where it needs to know more than the call does.
   */
  readonly plusMinus: (
    name: string,
    args: Call["args"],
    set: InstrumentSet,
  ) => readonly (readonly CellResult[])[] | undefined;
  /** The fermentation log that a call looks at; undefined for other functions, and where none can be read. */
  readonly course: (name: string, args: Call["args"]) => Course | undefined;
  /**
   * Hands the instruments to the functions that cells call.
   *
   * @returns whether cells have been told meanwhile that there are none, so that they have to be calculated again
   */
  readonly use: (set: InstrumentSet) => boolean;
  /** Tells them that there are instruments which cannot be read. @param why a sentence for a cell */
  readonly refuse: (why: string) => void;
}
