// The functions bundle as the page has loaded it. Cells call the functions there, so the pane uses the same ones: only
// types are imported.
import { storedInstruments } from "../instruments/stored.js";
import type { PartStore } from "../instruments/keeper.js";
import type { CellFunctions } from "../pane/ports.js";
import { sentenceFor } from "./problem.js";

declare const Gylesheet: typeof import("./functions.js");

/** Of all functions, in formulas. */
export const namespace = (): string => Gylesheet.namespace;

export function cellFunctions(): CellFunctions {
  return {
    list: Gylesheet.functions,
    evaluate: Gylesheet.evaluate,
    use: Gylesheet.useInstruments,
    refuse: Gylesheet.refuseInstruments,
  };
}

/**
 * Hands the workbook's instruments to the functions as early as can be: cells may be waiting, and the pane may never be
 * opened. It only reads; bringing parts together and keeping them up to date is the pane's part.
 */
export async function bringInstruments(parts: PartStore, functions: CellFunctions): Promise<void> {
  try {
    const { set, refused } = storedInstruments(await parts.read());
    if (set) functions.use(set);
    else functions.refuse(refused.flatMap(({ problems }) => problems).join(" "));
  } catch (error) {
    functions.refuse(sentenceFor(error));
  }
}
