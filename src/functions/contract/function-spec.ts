import type { Kind } from "../../instruments/schema.js";
import type { Listener } from "../../core/steps.js";
import type { CellContent, RawCells, Result } from "./cell-value.js";

/** Questions of users, by which the list of functions is ordered. */
export const topics = [
  "Correct a reading",
  "Alcohol and attenuation",
  "How sure it is",
  "Mash and kettle",
  "Fermentation",
  "Instruments",
] as const;

export interface Example {
  /** Without "=", arguments separated by commas. */
  readonly formula: string;
  /** What it gives, and when it is useful. */
  readonly says: string;
}

/** Texts of a cell function. */
export interface Words {
  /** Id and name in one, without the namespace. Stable once shipped. */
  readonly name: string;
  readonly topic: (typeof topics)[number];
  /** The question it answers. */
  readonly question: string;
  /** One sentence for lists and the formula bar. */
  readonly summary: string;
  readonly returns: string;
  readonly examples: readonly Example[];
  /** How it works, and where the numbers come from. */
  readonly method: string;
  /** Warning where a number could hurt someone. */
  readonly caution?: string;
  readonly uncertainty?: UncertaintySource;
}

/** Where the uncertainty of a result comes from. */
export interface UncertaintySource {
  /** The function that gives it. */
  readonly by: string;
  /**
   * Arguments of that function: this function's own parameters, by name, in order; undefined if one is omitted. Missing
   * if it needs something that this function does not know.
   */
  readonly from?: readonly (string | undefined)[];
}

export interface Parameter {
  /** Name in the formula bar. Stable once shipped; new ones go to the end. */
  readonly name: string;
  readonly description: string;
  readonly optional: boolean;
  /** Whether it names one of the workbook's instruments. */
  readonly namesInstrument: boolean;
  /** The only kind of instrument that is accepted. */
  readonly instrumentKind: Kind | undefined;
  /** The words that are accepted, if there are only a few. */
  readonly choices: readonly string[];
  /** In a range where some cells hold a name, an empty cell is an error in its row. */
  readonly namedThroughout: boolean;
}

/** A parameter that is read as a whole column. */
export const columnOf = (name: string, description: string): Parameter => ({
  name,
  description,
  optional: false,
  namesInstrument: false,
  instrumentKind: undefined,
  choices: [],
  namedThroughout: false,
});

/** A cell function: its texts, and how it processes cells. It holds no brewing arithmetic. */
export interface FunctionSpec extends Words {
  readonly parameters: readonly Parameter[];
  /** Cells in, cells out. Throws only CellError, if all cells share one problem. */
  readonly calculate: (args: readonly RawCells[]) => Result[][];
  /** For a function that works cell by cell: its result for the cells of one place. Throws nothing but bugs. */
  readonly inPlace?: (cells: readonly CellContent[], to?: Listener) => Result;
  /** Calculates one cell of the result as `calculate` does, and reports the steps. Throws only CellError. */
  readonly tell?: (args: readonly RawCells[], row: number, column: number, to: Listener) => Result;
  /** Whether each cell of the result depends only on the arguments at its own place, or on those of its row. */
  readonly goesBy?: "cell" | "row";
  /** Parameters that are read as whole lists for every cell of the result. */
  readonly lists?: readonly string[];
}

/** Namespace of all functions, as in GYLE.ABV. */
export const NAMESPACE = "GYLE";
