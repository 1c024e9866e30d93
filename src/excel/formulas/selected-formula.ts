/// <reference types="office-js" />
import { cellAddress } from "../../cells/a1.js";
import { typedFormula } from "../../formulas/formula-text.js";
import { parseFormula, type OwnFunctions } from "../../formulas/own-calls.js";
import type { SelectedFormula } from "../../pane/ports/selection-port.js";
import { Emitter, type Source } from "../../pane/source.js";
import { inExcel } from "../problem.js";
import { readInnerCalls } from "./read-calls.js";
import { knowsSpills } from "../cells/spills.js";
import { readNames } from "../cells/workbook-names.js";

/** Our formula behind the active cell; it may be in another cell and spill into this one. */
export async function selectedFormula(
  context: Excel.RequestContext,
  functions: OwnFunctions,
): Promise<SelectedFormula | undefined> {
  const cell = context.workbook.getActiveCell();
  cell.load("formulas,values,rowIndex,columnIndex");
  cell.worksheet.load("name");
  const parent = knowsSpills() ? cell.getSpillParentOrNullObject() : undefined;
  parent?.load("formulas,rowIndex,columnIndex");
  const names = await readNames(context);
  const holder = parent && !parent.isNullObject ? parent : cell;
  const formula: unknown = holder.formulas[0]?.[0];
  if (typeof formula !== "string" || !formula.startsWith("=")) return undefined;
  if (parseFormula(formula, functions).calls.length === 0) return undefined;
  const sheet = cell.worksheet.name;
  const at = { sheet, row: holder.rowIndex, column: holder.columnIndex };
  return {
    sheet,
    address: cellAddress(cell.rowIndex, cell.columnIndex),
    formula: typedFormula(formula, functions),
    value: cell.values[0]?.[0],
    row: cell.rowIndex - at.row,
    column: cell.columnIndex - at.column,
    calls: await readInnerCalls(context, functions, names, formula, at),
  };
}

/** Fires when another cell is selected or a sheet has been recalculated. */
export function selections(): Source<void> {
  const selected = new Emitter();
  const called = (): Promise<void> => {
    selected.emit();
    return Promise.resolve();
  };
  inExcel(
    async (context) => {
      context.workbook.onSelectionChanged.add(called);
      context.workbook.worksheets.onCalculated.add(called);
      await context.sync();
    },
    { delayForCellEdit: true },
  ).catch(() => {
    // Without these events the cell is read when its section of the pane is opened.
  });
  return selected;
}
