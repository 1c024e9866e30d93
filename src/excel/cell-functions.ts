// The functions bundle as the page has loaded it. Cells call the functions there, so the pane uses the same ones: only
// types are imported.
import type { CellFunctions } from "../pane/ports.js";

declare const Gylesheet: typeof import("./functions.js");

/** Of all functions, in formulas. */
export const namespace = (): string => Gylesheet.namespace;

export function cellFunctions(): CellFunctions {
  return {
    list: Gylesheet.functions,
    evaluate: Gylesheet.evaluate,
    use: Gylesheet.useInstruments,
    refuse: Gylesheet.refuseInstruments,
    sentences: { refusal: Gylesheet.sentence, textNotNumber: Gylesheet.textNotNumber },
  };
}
