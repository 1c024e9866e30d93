// What the pane asks of the functions bundle. Only types are imported: the functions themselves ship in a bundle of their own.
import type { evaluate } from "../../functions/evaluate.js";
import type { explain } from "../../functions/explain.js";
import type { course } from "../../functions/fermentation-course.js";
import type { FunctionSpec, Words } from "../../functions/contract/function-spec.js";
import type { refuseInstruments, useInstruments } from "../../functions/contract/instruments-port.js";
import type { sentence, textNotNumber } from "../../functions/contract/messages.js";
import type { resultAt, resultShape } from "../../functions/one-cell.js";
import type { plusMinus } from "../../functions/uncertainty.js";

/** What the list of functions shows. */
export type FunctionInfo = Words & Pick<FunctionSpec, "parameters" | "goesBy">;

/** The cell functions, as the functions bundle has them. What each member does is said where it is written. */
export interface FunctionsPort {
  /** Sentences of theirs, so that the pane says the same. */
  readonly sentences: {
    readonly refusal: typeof sentence;
    readonly textNotNumber: typeof textNotNumber;
  };
  readonly list: readonly FunctionInfo[];
  /** What a function would give with these arguments and instruments. Changes nothing. */
  readonly evaluate: typeof evaluate;
  /** Rows and columns of what a function would give. */
  readonly shape: typeof resultShape;
  /** What one cell of a result would show. */
  readonly at: typeof resultAt;
  readonly explain: typeof explain;
  readonly plusMinus: typeof plusMinus;
  /** The fermentation log that a call looks at; undefined for other functions, and where none can be read. */
  readonly course: typeof course;
  /** Hands the instruments to the functions that cells call. */
  readonly use: typeof useInstruments;
  /** Tells them that there are instruments which cannot be read. */
  readonly refuse: typeof refuseInstruments;
}

/** The global of the functions bundle, as far as the pane asks it. */
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

/** The functions bundle by the words of the pane. */
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
