/// <reference types="office-js" />
import type { SheetPlace } from "../../cells/place.js";
import type { Block } from "./blocks.js";

/** Cells queried per batch. */
const BATCH_SIZE = 500;

/** Spills cannot be queried before ExcelApi 1.12. */
export function knowsSpills(): boolean {
  return Office.context.requirements.isSetSupported("ExcelApi", "1.12");
}

/**
 * The cells that belong to the spilled result of a formula in another cell. Some builds repeat that formula in them,
 * where it must not be counted, and writing to them would break the result.
 *
 * @param block that contains the cells, loaded with "hasSpill", so that usually no query is needed
 */
export async function spilled<P extends SheetPlace>(
  context: Excel.RequestContext,
  block: Block | undefined,
  cells: readonly P[],
): Promise<Set<P>> {
  const result = new Set<P>();
  // Null means: in some cells.
  const mayBe = knowsSpills() && (block === undefined || (block.range.hasSpill as boolean | null) !== false);
  for (let i = 0; mayBe && i < cells.length; i += BATCH_SIZE) {
    const asked = cells.slice(i, i + BATCH_SIZE).map((cell) => {
      const sheet = context.workbook.worksheets.getItem(cell.sheet);
      const parent = sheet.getCell(cell.row, cell.column).getSpillParentOrNullObject();
      parent.load("rowIndex,columnIndex");
      return { cell, parent };
    });
    await context.sync();
    for (const { cell, parent } of asked)
      if (!parent.isNullObject && (parent.rowIndex !== cell.row || parent.columnIndex !== cell.column))
        result.add(cell);
  }
  return result;
}
