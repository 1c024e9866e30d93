import type { WorkbookModel } from "../workbook/model.js";
import { InterpreterMissing } from "./interpreter.js";
import type { CellFunctions } from "./ours/cell-functions.js";
import { Recalculating } from "./passes.js";
import type { Recalculation, RecalculationOptions } from "./recalculation.js";

/**
 * Like `recalculate`, for a program that must start quickly: the interpreter, which is most of the code, is loaded only
 * for a workbook that needs it.
 */
export async function recalculatePromptly(
  model: WorkbookModel,
  functions: CellFunctions,
  options: RecalculationOptions = {},
): Promise<Recalculation> {
  const work = new Recalculating(model, functions);
  try {
    return work.run(undefined, options);
  } catch (error) {
    if (!(error instanceof InterpreterMissing)) throw error;
  }
  const { UniverEngine } = await import(/* webpackChunkName: "interpreter" */ "./univer/univer-engine.js");
  return work.run(() => new UniverEngine(work.book.sheetNames, functions), options);
}
