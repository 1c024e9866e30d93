import {
  BooleanNumber,
  CellValueType,
  LocaleType,
  type ICellData,
  type IWorkbookData,
  type IWorksheetData,
} from "@univerjs/core";
import { fromCell } from "../engine/grid.js";
import { toUniverCell } from "../engine/univer-values.js";
import type { Appearance } from "../workbook/appearance.js";
import type { Cell, CellValue, Sheet, WorkbookModel } from "../workbook/model.js";
import type { SheetAppearance } from "../workbook/sheet-appearance.js";
import type { Live, LiveFormulas } from "./live-formulas.js";
import { univerStyle } from "./univer-style.js";

/** Rows and columns beyond those in use, to go on in. */
const ROOM = { rows: 100, columns: 6, leastRows: 100, leastColumns: 26 };

export const sheetId = (index: number): string => `s${index}`;

/** Univer's name for a style that the file has; it keeps these names as cells are copied. */
export const styleId = (style: number): string => `f${style}`;

/** The file's number of a style that goes by such a name. */
export function fileStyle(id: string | undefined): number | undefined {
  const number = /^f(\d+)$/.exec(id ?? "")?.[1];
  return number === undefined ? undefined : Number(number);
}

/** A workbook for Univer, and what the sheet made of each formula, by sheet and cell. */
export interface UniverBook {
  readonly data: IWorkbookData;
  readonly formulas: readonly ReadonlyMap<string, Live>[];
}

export const cellKey = (row: number, column: number): string => `${row},${column}`;

/** @param id no two workbooks on one page may share: Univer keeps what it has read of formulas by it */
export function univerBook(
  id: string,
  model: WorkbookModel,
  look: Appearance,
  live: LiveFormulas,
): UniverBook {
  const formulas = model.sheets.map((sheet, index) => liveFormulas(sheet, index, live));
  const sheets = model.sheets.map((sheet, index) =>
    worksheet(sheetId(index), sheet, look.sheets[index], formulas[index] ?? new Map<string, Live>()),
  );
  return {
    formulas,
    data: {
      id,
      name: id,
      appVersion: "",
      locale: LocaleType.EN_US,
      styles: Object.fromEntries(look.styles.map((style, index) => [styleId(index), univerStyle(style)])),
      defaultStyle: { ff: "Calibri, Carlito, Arial, sans-serif", fs: 11 },
      sheetOrder: sheets.map((_, index) => sheetId(index)),
      sheets: Object.fromEntries(sheets.map((sheet, index) => [sheetId(index), sheet])),
    },
  };
}

function liveFormulas({ cells }: Sheet, sheet: number, live: LiveFormulas): Map<string, Live> {
  const all = new Map<string, Live>();
  for (const { row, column, formula } of cells)
    if (formula) all.set(cellKey(row, column), live.of(formula, { sheet, row, column }));
  return all;
}

function worksheet(
  id: string,
  sheet: Sheet,
  look: SheetAppearance | undefined,
  formulas: ReadonlyMap<string, Live>,
): Partial<IWorksheetData> {
  const cellData: Record<number, Record<number, ICellData>> = {};
  const put = (row: number, column: number, data: ICellData): void => {
    const line = (cellData[row] ??= {});
    line[column] = { ...line[column], ...data };
  };
  const spilled = spilledCells(sheet, formulas);
  let [height, width] = [0, 0];
  for (const cell of sheet.cells) {
    const { row, column } = cell;
    height = Math.max(height, row + 1);
    width = Math.max(width, column + 1);
    // What a formula fills comes from the formula: a value in its way would block it.
    if (spilled.has(cellKey(row, column))) continue;
    put(row, column, cellContent(cell, formulas.get(cellKey(row, column))));
  }
  for (const { row, column, style } of look?.cells ?? []) put(row, column, { s: styleId(style) });
  const frozen = look?.frozen ?? { rows: 0, columns: 0 };
  return {
    id,
    name: sheet.name,
    hidden: look?.hidden === true ? BooleanNumber.TRUE : BooleanNumber.FALSE,
    showGridlines: look?.gridlines === false ? BooleanNumber.FALSE : BooleanNumber.TRUE,
    rowCount: Math.max(height + ROOM.rows, ROOM.leastRows),
    columnCount: Math.max(width + ROOM.columns, ROOM.leastColumns),
    defaultColumnWidth: pixelsOfWidth(look?.defaultWidth ?? 8.43),
    defaultRowHeight: pixelsOfHeight(look?.defaultHeight ?? 15),
    freeze: {
      xSplit: frozen.columns,
      ySplit: frozen.rows,
      startRow: frozen.rows || -1,
      startColumn: frozen.columns || -1,
    },
    mergeData: (look?.merged ?? []).map(({ top, left, bottom, right }) => ({
      startRow: top,
      startColumn: left,
      endRow: bottom,
      endColumn: right,
    })),
    cellData,
    columnData: columnData(look, width + ROOM.columns),
    rowData: Object.fromEntries(
      (look?.rows ?? []).map(({ row, height: points, hidden }) => [
        row,
        {
          ...(points === undefined ? {} : { h: pixelsOfHeight(points), ia: BooleanNumber.FALSE }),
          ...(hidden ? { hd: BooleanNumber.TRUE } : {}),
        },
      ]),
    ),
  };
}

/** Cells that formulas fill besides their own. */
function spilledCells({ cells }: Sheet, formulas: ReadonlyMap<string, Live>): ReadonlySet<string> {
  const filled = new Set<string>();
  for (const { row, column, formula } of cells) {
    const live = formulas.get(cellKey(row, column));
    if (!formula?.area || !live || "kept" in live) continue;
    const { top, left, bottom, right } = formula.area;
    for (let r = top; r <= bottom; r++)
      for (let c = left; c <= right; c++) if (r !== row || c !== column) filled.add(cellKey(r, c));
  }
  return filled;
}

/** Univer trusts a value beside a formula; our own functions always calculate anew, so theirs is left out. */
function cellContent({ value, formula }: Cell, live: Live | undefined): ICellData {
  if (!live || "kept" in live) return univerValue(value);
  const trusted = live.own || formula?.kind === "spill" ? {} : univerValue(value);
  return { ...trusted, f: live.text };
}

/** Text is marked as such only where Univer could take it for something else: the mark shows in the formula bar. */
function univerValue(value: CellValue): ICellData {
  if (typeof value === "string" && !/^\s*[-+.=\d]/.test(value) && !/^(true|false)$/i.test(value))
    return value === "" ? {} : { v: value, t: CellValueType.STRING };
  const { v, t } = toUniverCell(fromCell(value)) ?? {};
  return { ...(v === undefined ? {} : { v }), ...(t === undefined ? {} : { t }) };
}

function columnData(look: SheetAppearance | undefined, used: number): IWorksheetData["columnData"] {
  const data: IWorksheetData["columnData"] = {};
  for (const { from, to, width, hidden, style } of look?.columns ?? [])
    // A file may say something of all 16,384 columns.
    for (let column = from; column <= Math.min(to, used + ROOM.leastColumns); column++)
      data[column] = {
        ...(width === undefined ? {} : { w: pixelsOfWidth(width) }),
        ...(hidden ? { hd: BooleanNumber.TRUE } : {}),
        ...(style === undefined ? {} : { s: styleId(style) }),
      };
  return data;
}

/** A digit of the default font is 7 pixels wide (ECMA-376 part 1, 18.3.1.13). */
function pixelsOfWidth(characters: number): number {
  return Math.trunc(((256 * characters + Math.trunc(128 / 7)) / 256) * 7);
}

function pixelsOfHeight(points: number): number {
  return Math.round((points * 4) / 3);
}
