import { placeKey } from "../cells/place.js";
import type { CellValue, WorkbookModel } from "../workbook/model.js";
import type { Recalculation } from "./recalculation.js";

/** Values of cells after a recalculation. Sheets, rows and columns count from 0. */
export function freshValues(
  model: WorkbookModel,
  { changes }: Pick<Recalculation, "changes">,
): (sheet: number, row: number, column: number) => CellValue {
  const sheets = model.sheets.map(
    ({ cells }) => new Map(cells.map(({ row, column, value }) => [placeKey(row, column), value])),
  );
  const numbers = new Map(model.sheets.map(({ name }, i) => [name, i]));
  for (const { sheet, row, column, value } of changes)
    sheets[numbers.get(sheet) ?? -1]?.set(placeKey(row, column), value);
  return (sheet, row, column) => sheets[sheet]?.get(placeKey(row, column)) ?? null;
}
