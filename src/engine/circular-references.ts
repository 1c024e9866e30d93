import type { SheetPlace } from "../cells/place.js";
import { WorkbookError } from "../workbook/error.js";
import { addressOf } from "./references/address.js";
import type { Book } from "./references/book.js";
import type { Recalculation } from "./recalculation.js";

/**
 * For anything that needs a value for each of our formulas, such as a copy.
 *
 * @throws WorkbookError for a workbook with a circular reference
 */
export function refuseCircularReferences({ cycles: [cycle], book }: Recalculation): void {
  if (cycle) throw new WorkbookError(`has a circular reference: ${cycleText(cycle, book)}`);
}

/** @throws WorkbookError if circular references leave nothing to calculate */
export function refuseOnlyCircularReferences(result: Recalculation): void {
  if (result.counts.recalculated === 0) refuseCircularReferences(result);
}

/** A circular reference as its cells in order, back to the first. */
function cycleText(cycle: readonly SheetPlace[], book: Book): string {
  const cells = cycle.map(({ sheet, row, column }) =>
    addressOf({ sheet: book.sheetNamed(sheet) ?? 0, row, column }, book),
  );
  return [...cells, cells[0] ?? ""].join(" → ");
}
