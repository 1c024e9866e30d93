// The functions bundle as the page has loaded it. Cells call the functions there, so the pane uses the same ones: only
// types are imported.
import type { FunctionsPort } from "../pane/ports.js";

declare const Gylesheet: typeof import("./functions.js");

/** Of all functions, in formulas. */
export const namespace = (): string => Gylesheet.namespace;

/** Undefined where the bundle has not arrived, or found no office.js to tell of its functions. */
export function cellFunctions(): FunctionsPort | undefined {
  if (typeof Gylesheet === "undefined") return undefined;
  return {
    list: Gylesheet.functions,
    evaluate: Gylesheet.evaluate,
    shape: Gylesheet.shape,
    at: Gylesheet.at,
    explain: Gylesheet.explain,
    plusMinus: Gylesheet.plusMinus,
    course: Gylesheet.course,
    use: Gylesheet.useInstruments,
    refuse: Gylesheet.refuseInstruments,
    sentences: { refusal: Gylesheet.sentence, textNotNumber: Gylesheet.textNotNumber },
  };
}
