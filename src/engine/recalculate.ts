import type { WorkbookModel } from "../workbook/model.js";
import type { CellFunctions } from "./ours/cell-functions.js";
import { Recalculating } from "./passes.js";
import type { Recalculation, RecalculationOptions } from "./recalculation.js";
import { UniverEngine } from "./univer/univer-engine.js";

/**
 * Recalculates all formulas of a workbook that call our functions, and all that depend on them.
 *
 * Formulas that these need are evaluated as well; all others count with their stored values. A native formula is
 * written only if the engine first reproduces its stored value from the stored cells.
 */
export function recalculate(
  model: WorkbookModel,
  functions: CellFunctions,
  options: RecalculationOptions = {},
): Recalculation {
  const work = new Recalculating(model, functions);
  return work.run(() => new UniverEngine(work.book.sheetNames, functions), options);
}
