/// <reference types="office-js" />
import { areaOf, type Area } from "../../cells/area.js";
import { positionKey, type SheetPlace } from "../../cells/place.js";
import { resolveReference } from "../../formulas/references.js";
import { formulaTokens, isOperator, isSignificant } from "../../formulas/tokens.js";
import type { Block } from "./blocks.js";
import { edges, rangeArea, type WorkbookNames } from "./workbook-names.js";

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

/** The names of the workbook, which know what "D4#" means wherever one of the formulas says so. */
export async function readSpills(
  context: Excel.RequestContext,
  names: WorkbookNames,
  formulas: readonly (SheetPlace & { readonly formula: string })[],
): Promise<WorkbookNames> {
  const anchors = new Map<string, SheetPlace>();
  for (const { formula, ...at } of formulas)
    for (const anchor of anchorsIn(formula, at, names)) anchors.set(positionKey(anchor), anchor);
  if (anchors.size === 0 || !knowsSpills()) return names;
  const areas = new Map<string, Area>();
  const all = [...anchors.values()];
  for (let i = 0; i < all.length; i += BATCH_SIZE) {
    const asked = all.slice(i, i + BATCH_SIZE).map((anchor) => {
      const cell = context.workbook.worksheets.getItem(anchor.sheet).getCell(anchor.row, anchor.column);
      const range = cell.getSpillingToRangeOrNullObject();
      range.load(edges);
      return { anchor, range };
    });
    await context.sync();
    for (const { anchor, range } of asked)
      areas.set(
        positionKey(anchor),
        // A formula of one value fills its own cell.
        range.isNullObject ? areaOf(anchor) : rangeArea(anchor.sheet, range),
      );
  }
  return { ...names, spilledFrom: (anchor) => areas.get(positionKey(anchor)) };
}

/** The cells before "#" in a formula. */
function anchorsIn(formula: string, at: SheetPlace, names: WorkbookNames): SheetPlace[] {
  if (!formula.includes("#")) return [];
  const solid = formulaTokens(formula).filter(isSignificant);
  return solid.flatMap(({ value }, i) => {
    const cell = isOperator(solid[i + 1], "#") ? resolveReference(value, at, names) : undefined;
    return cell && "sheet" in cell ? [{ sheet: cell.sheet, row: cell.top, column: cell.left }] : [];
  });
}
