// What the pane needs from the functions bundle. Only types are imported: the functions themselves ship in their own
// bundle.
import type { evaluate } from "../../functions/evaluate.js";
import type { explain } from "../../functions/explain.js";
import type { course } from "../../functions/fermentation-course.js";
import type { FunctionSpec, Words } from "../../functions/contract/function-spec.js";
import type { refuseInstruments, useInstruments } from "../../functions/contract/instruments-port.js";
import type { sentence, textNotNumber } from "../../functions/contract/messages.js";
import type { resultAt, resultShape } from "../../functions/one-cell.js";
import type { plusMinus } from "../../functions/uncertainty.js";

/** A function as shown in the list. */
export type FunctionInfo = Words & Pick<FunctionSpec, "parameters" | "goesBy">;

/** The cell functions in the functions bundle. Each member is documented where it is defined. */
export interface FunctionsPort {
  /** Their sentences, so that the pane uses the same wording. */
  readonly sentences: {
    readonly refusal: typeof sentence;
    readonly textNotNumber: typeof textNotNumber;
  };
  readonly list: readonly FunctionInfo[];
  /** What a function would return for these arguments and instruments. Changes nothing. */
  readonly evaluate: typeof evaluate;
  /** Rows and columns of what a function would return. */
  readonly shape: typeof resultShape;
  /** What one cell of a result would show. */
  readonly at: typeof resultAt;
  readonly explain: typeof explain;
  readonly plusMinus: typeof plusMinus;
  /** The fermentation log that a call reads; undefined for other functions, or if it cannot be read. */
  readonly course: typeof course;
  /** Passes the instruments to the functions that cells call. */
  readonly use: typeof useInstruments;
  /** Tells the functions that the instruments cannot be read. */
  readonly refuse: typeof refuseInstruments;
}

/** The part of the bundle's global that the pane uses. */
export interface BundledFunctions extends Pick<
  FunctionsPort,
  "evaluate" | "shape" | "at" | "explain" | "plusMinus" | "course"
> {
  readonly functions: FunctionsPort["list"];
  readonly useInstruments: FunctionsPort["use"];
  readonly refuseInstruments: FunctionsPort["refuse"];
  readonly sentence: typeof sentence;
  readonly textNotNumber: typeof textNotNumber;
}

/** The functions bundle under the pane's names. */
export const functionsPort = (bundle: BundledFunctions): FunctionsPort => ({
  list: bundle.functions,
  evaluate: bundle.evaluate,
  shape: bundle.shape,
  at: bundle.at,
  explain: bundle.explain,
  plusMinus: bundle.plusMinus,
  course: bundle.course,
  use: bundle.useInstruments,
  refuse: bundle.refuseInstruments,
  sentences: { refusal: bundle.sentence, textNotNumber: bundle.textNotNumber },
});
