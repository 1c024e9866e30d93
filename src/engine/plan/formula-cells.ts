import { areaOf, forEachCell } from "../../cells/area.js";
import type { Area } from "../../cells/area.js";
import type { CellValue, Formula, WorkbookModel } from "../../workbook/model.js";
import type { Position } from "../../cells/place.js";
import type { Template, Templates } from "../references/templates.js";

/** A cell with a formula. */
export interface FormulaCell extends Position {
  readonly formula: Formula;
  readonly stored: CellValue;
  readonly template: Template;
}

/** All formulas of a workbook, sheet by sheet in reading order. */
export function formulaCells(model: WorkbookModel, templates: Templates): FormulaCell[] {
  const found: FormulaCell[] = [];
  for (const [sheet, { cells }] of model.sheets.entries())
    for (const { row, column, value: stored, formula } of cells)
      if (formula)
        found.push({
          sheet,
          row,
          column,
          formula,
          stored,
          template: templates.of(formula, { sheet, row, column }),
        });
  return found;
}

/** The cells that a formula fills according to the file. */
export function storedArea({ formula, row, column }: Pick<FormulaCell, "formula" | "row" | "column">): Area {
  return formula.kind !== "plain" && formula.area ? formula.area : areaOf({ row, column });
}

export function placesOf(area: Area): (readonly [row: number, column: number])[] {
  const cells: (readonly [number, number])[] = [];
  forEachCell(area, (row, column) => {
    cells.push([row, column]);
  });
  return cells;
}
