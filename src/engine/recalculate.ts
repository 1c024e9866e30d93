import type { WorkbookModel } from "../workbook/model.js";
import type { CellFunctions } from "./ours/cell-functions.js";
import { Recalculating } from "./passes.js";
import type { Recalculation, RecalculationOptions } from "./recalculation.js";
import { UniverEngine } from "./univer/univer-engine.js";

/**
 * Brings all formulas of a workbook that call our functions up to date, and all that depend on them.
 *
 * Formulas that these need are evaluated as well; all others count as the values stored for them. What is not ours is only
 * written where the engine first comes to its stored value from the stored cells.
 */
export function recalculate(
  model: WorkbookModel,
  functions: CellFunctions,
  options: RecalculationOptions = {},
): Recalculation {
  const work = new Recalculating(model, functions);
  return work.run(() => new UniverEngine(work.book.sheetNames, functions), options);
}
