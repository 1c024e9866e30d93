/// <reference types="office-js" />
import type { SheetArea } from "../../cells/area.js";
import type { Names } from "../../formulas/references.js";
import { foldCase } from "../../formulas/sheet-name.js";
import type { TableShape } from "../../formulas/table-cells.js";
import { cellCount } from "./blocks.js";

/** A sheet, hidden or not. */
export interface SheetInfo {
  readonly name: string;
  readonly visibility: Excel.Worksheet["visibility"];
  readonly isProtected: boolean;
  /** Undefined if the sheet is empty. */
  readonly used: SheetArea | undefined;
}

/** Sheets, defined names and tables of the workbook. */
export interface WorkbookNames extends Names {
  readonly sheets: readonly SheetInfo[];
  readonly sheetInfo: (name: string) => SheetInfo | undefined;
}

export const edges = "rowIndex,columnIndex,rowCount,columnCount";

export function rangeArea(sheet: string, range: Excel.Range): SheetArea {
  const { rowIndex, columnIndex, rowCount, columnCount } = range;
  return {
    sheet,
    top: rowIndex,
    left: columnIndex,
    bottom: rowIndex + rowCount - 1,
    right: columnIndex + columnCount - 1,
  };
}

/** Beyond this a used range is formatting down to the last row rather than content. */
const MOST_CELLS = 2_000_000;

/**
 * Includes formatted cells, because it is not documented whether a formula that returns "" counts as filled, unless
 * there are too many of them to read.
 */
function usedArea(sheet: string, used: Excel.Range, filled: Excel.Range): SheetArea | undefined {
  if (used.isNullObject) return undefined;
  const area = rangeArea(sheet, used);
  if (cellCount(area) <= MOST_CELLS) return area;
  return filled.isNullObject ? undefined : rangeArea(sheet, filled);
}

/** Reads the names that formulas can use. */
export async function readNames(context: Excel.RequestContext): Promise<WorkbookNames> {
  const { worksheets, names, tables } = context.workbook;
  worksheets.load("items/name,items/visibility,items/protection/protected");
  names.load("items/name,items/formula");
  tables.load("items/name,items/showHeaders,items/showTotals");
  await context.sync();

  const sheetParts = worksheets.items.map((sheet) => {
    const used = sheet.getUsedRangeOrNullObject(false);
    const filled = sheet.getUsedRangeOrNullObject(true);
    used.load(edges);
    filled.load(edges);
    sheet.names.load("items/name,items/formula");
    return { sheet, used, filled };
  });
  const tableParts = tables.items.map((table) => {
    const range = table.getRange();
    range.load(edges);
    table.worksheet.load("name");
    table.columns.load("items/name");
    return { table, range };
  });
  await context.sync();

  const sheets = sheetParts.map(({ sheet, used, filled }) => ({
    name: sheet.name,
    visibility: sheet.visibility,
    isProtected: sheet.protection.protected,
    used: usedArea(sheet.name, used, filled),
  }));
  const shapes = tableParts.map(({ table, range }): TableShape => ({
    name: table.name,
    sheet: table.worksheet.name,
    area: rangeArea(table.worksheet.name, range),
    headerRows: table.showHeaders ? 1 : 0,
    totalsRows: table.showTotals ? 1 : 0,
    columns: table.columns.items.map(({ name }) => name),
  }));
  const definitions = new Map<string, string>();
  const define = (items: readonly Excel.NamedItem[], sheet = ""): void => {
    for (const { name, formula } of items)
      definitions.set(`${foldCase(sheet)}!${foldCase(name)}`, String(formula));
  };
  define(names.items);
  for (const { sheet } of sheetParts) define(sheet.names.items, sheet.name);

  const sheetInfo = (name: string): SheetInfo | undefined =>
    sheets.find((sheet) => foldCase(sheet.name) === foldCase(name));
  return {
    sheets,
    sheetInfo,
    sheet: (name) => sheetInfo(name)?.name,
    defined: (name, sheet) =>
      definitions.get(`${foldCase(sheet)}!${foldCase(name)}`) ?? definitions.get(`!${foldCase(name)}`),
    table: (name) => shapes.find((table) => foldCase(table.name) === foldCase(name)),
    tableAt: ({ sheet, row, column }) =>
      shapes.find(
        ({ sheet: home, area }) =>
          home === sheet &&
          row >= area.top &&
          row <= area.bottom &&
          column >= area.left &&
          column <= area.right,
      ),
    // Excel is asked about those that formulas name, in readSpills.
    spilledFrom: () => undefined,
  };
}
