import type { WorkbookModel } from "../workbook/model.js";
import { addressOf } from "./address.js";
import { Book } from "./book.js";
import type { CellAddress } from "./recalculation.js";

/** A circular reference as the cells that it goes through, back to the first. */
export function wayRound(loop: readonly CellAddress[], model: WorkbookModel): string {
  const book = new Book(model);
  const cells = loop.map(({ sheet, row, column }) =>
    addressOf({ sheet: book.sheetNamed(sheet) ?? 0, row, column }, book),
  );
  return [...cells, cells[0] ?? ""].join(" → ");
}
