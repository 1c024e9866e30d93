/// <reference types="office-js" />
import type { SheetPlace } from "../../cells/place.js";
import type { Block } from "./blocks.js";

/** Cells asked about in one go. */
const AT_ONCE = 500;

/** Before ExcelApi 1.12 there is no way to ask. */
export function knowsSpills(): boolean {
  return Office.context.requirements.isSetSupported("ExcelApi", "1.12");
}

/**
 * Those of some cells that belong to the result of a formula in another cell. Some builds repeat that formula in them,
 * where it is not to be counted, and writing into them would break the result.
 *
 * @param block in which they stand, loaded with "hasSpill", so that mostly nothing has to be asked
 */
export async function spilled<P extends SheetPlace>(
  context: Excel.RequestContext,
  block: Block | undefined,
  cells: readonly P[],
): Promise<Set<P>> {
  const result = new Set<P>();
  // Null means: in some cells.
  const mayBe = knowsSpills() && (block === undefined || (block.range.hasSpill as boolean | null) !== false);
  for (let i = 0; mayBe && i < cells.length; i += AT_ONCE) {
    const asked = cells.slice(i, i + AT_ONCE).map((cell) => {
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
