import type { SheetPlace } from "../cells/place.js";
import { WorkbookError } from "../workbook/error.js";
import { addressOf } from "./references/address.js";
import type { Book } from "./references/book.js";
import type { Recalculation } from "./recalculation.js";

/**
 * For whatever needs a value of every formula of ours, as a copy does.
 *
 * @throws WorkbookError for a workbook in which one needs itself
 */
export function refuseLoops({ loops: [loop], book }: Recalculation): void {
  if (loop) throw new WorkbookError(`has a circular reference: ${wayRound(loop, book)}`);
}

/** @throws WorkbookError for a workbook in which circular references leave nothing to calculate */
export function refuseNothingButLoops(result: Recalculation): void {
  if (result.counts.recalculated === 0) refuseLoops(result);
}

/** A circular reference as the cells that it goes through, back to the first. */
function wayRound(loop: readonly SheetPlace[], book: Book): string {
  const cells = loop.map(({ sheet, row, column }) =>
    addressOf({ sheet: book.sheetNamed(sheet) ?? 0, row, column }, book),
  );
  return [...cells, cells[0] ?? ""].join(" → ");
}
