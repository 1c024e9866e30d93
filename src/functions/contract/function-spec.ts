import type { Kind } from "../../instruments/schema.js";
import type { Listener } from "../../core/steps.js";
import type { CellContent, RawCells, Result } from "./cell-value.js";

/** What users want to know: how the list of functions is ordered. */
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
  /** What it gives, and why one would ask. */
  readonly says: string;
}

/** A cell function in words. */
export interface Words {
  /** Id and name in one, after the namespace. Stable once shipped. */
  readonly name: string;
  readonly topic: (typeof topics)[number];
  /** What one wants to know when one needs it. */
  readonly question: string;
  /** One sentence for lists and the formula bar. */
  readonly summary: string;
  readonly returns: string;
  readonly examples: readonly Example[];
  /** How it is done, and where the numbers come from. */
  readonly method: string;
  /** Where a number could hurt someone. */
  readonly caution?: string;
  readonly uncertainty?: UncertaintySource;
}

/** Where it says how sure a result is. */
export interface UncertaintySource {
  /** The function that does. */
  readonly by: string;
  /**
   * What it gets: this function's own parameters, by name, in its order; undefined where it gets nothing. Missing if it needs
   * something that this function does not know.
   */
  readonly from?: readonly (string | undefined)[];
}

export interface Parameter {
  /** As the formula bar shows it. Stable once shipped; new ones go to the end. */
  readonly name: string;
  readonly description: string;
  readonly optional: boolean;
  /** It is looked up among the workbook's instruments. */
  readonly namesInstrument: boolean;
  /** Of such a parameter: the only kind that serves. */
  readonly instrumentKind: Kind | undefined;
  /** The words that it may be, where there are only a few. */
  readonly choices: readonly string[];
  /** In a range of which some cells name one, an empty cell is an error in its row. */
  readonly namedThroughout: boolean;
}

/** A parameter that is a column to be read as a whole. */
export const columnOf = (name: string, description: string): Parameter => ({
  name,
  description,
  optional: false,
  namesInstrument: false,
  instrumentKind: undefined,
  choices: [],
  namedThroughout: false,
});

/** A cell function: its words, and what it does with cells. It holds no brewing arithmetic. */
export interface FunctionSpec extends Words {
  readonly parameters: readonly Parameter[];
  /** Cells in, cells out. Throws only CellError, when all cells share one problem. */
  readonly calculate: (args: readonly RawCells[]) => Result[][];
  /** Of a function that goes cell by cell: what it makes of the cells of one place. Throws nothing but bugs. */
  readonly inPlace?: (cells: readonly CellContent[], to?: Listener) => Result;
  /** Calculates one cell of the result as `calculate` does, and tells how. Throws only CellError. */
  readonly tell?: (args: readonly RawCells[], row: number, column: number, to: Listener) => Result;
  /** Each cell of the result depends on the arguments of its own place only, or on those of its row, one of each. */
  readonly goesBy?: "cell" | "row";
  /** Parameters that are read as whole lists for every cell of the result. */
  readonly lists?: readonly string[];
}

/** Namespace of all functions: a formula says GYLE.ABV. */
export const NAMESPACE = "GYLE";
