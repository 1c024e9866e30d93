/// <reference types="office-js" />
import type { CellAddress } from "../../cells/place.js";
import { typedFormula } from "../../formulas/formula-text.js";
import { parseFormula, type OwnFunctions } from "../../formulas/own-calls.js";
import type { Report, Work } from "../../pane/ports/formulas-port.js";
import { CellBatch } from "../cells/cell-batch.js";
import { locate } from "../cells/locate.js";
import { readNames } from "../cells/workbook-names.js";
import { writeCells } from "../cells/write-cells.js";

/**
 * Re-enters formulas as a user would type them, because Excel looks up their functions only then (office-js issue
 * 6395). A cell whose content has changed meanwhile is left alone.
 */
export async function repairFormulas(
  context: Excel.RequestContext,
  functions: OwnFunctions,
  cells: readonly CellAddress[],
  { onProgress, signal }: Work,
): Promise<Report> {
  const names = await readNames(context);
  const { places, failures } = locate(cells, names);
  const read = new CellBatch(names);
  for (const { sheet, row, column } of places)
    read.need({ sheet, top: row, left: column, bottom: row, right: column });
  await read.read(context, signal);
  const writes = places.flatMap(({ sheet, row, column }) => {
    const { formula } = read.cell({ sheet, row, column });
    const typed =
      typeof formula === "string" && formula.startsWith("=") ? typedFormula(formula, functions) : "";
    return parseFormula(typed, functions).calls.length > 0 ? [{ sheet, row, column, formula: typed }] : [];
  });
  onProgress(0, writes.length);
  const unwritten = await writeCells(context, names, writes, signal, (done) => {
    onProgress(done, writes.length);
  });
  return { done: writes.length - unwritten.length, failed: [...failures, ...unwritten] };
}
