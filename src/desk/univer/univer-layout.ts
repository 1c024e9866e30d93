import { placeKey } from "../../cells/place.js";
import { BooleanNumber, type IWorksheetData } from "@univerjs/core";
import type { SheetModel } from "../../workbook/model.js";
import type { SheetAppearance } from "../../workbook/sheet/sheet-appearance.js";
import type { CellStyle } from "../../workbook/style/styles.js";
import { styleId } from "./univer-names.js";

/** Spare rows and columns beyond the used range. */
const ROOM = { rows: 100, columns: 6, leastRows: 100, leastColumns: 26 };

/** In characters, if the file has none. */
const DEFAULT_WIDTH = 8.43;

/** The layout of a sheet: size, hidden and frozen lines, merged cells, widths and heights. */
export function univerLayout(
  sheet: SheetModel,
  look: SheetAppearance | undefined,
  styles: readonly CellStyle[],
): Partial<IWorksheetData> {
  const height = sheet.cells.reduce((most, { row }) => Math.max(most, row + 1), 0);
  const width = sheet.cells.reduce((most, { column }) => Math.max(most, column + 1), 0);
  const frozen = look?.frozen ?? { rows: 0, columns: 0 };
  return {
    hidden: look?.hidden === true ? BooleanNumber.TRUE : BooleanNumber.FALSE,
    showGridlines: look?.gridlines === false ? BooleanNumber.FALSE : BooleanNumber.TRUE,
    rowCount: Math.max(height + ROOM.rows, ROOM.leastRows),
    columnCount: Math.max(width + ROOM.columns, ROOM.leastColumns),
    defaultColumnWidth: pixelsOfWidth(look?.defaultWidth ?? DEFAULT_WIDTH),
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
    columnData: columnData(look, width + ROOM.columns),
    rowData: rowData(sheet, look, styles),
  };
}

function columnData(look: SheetAppearance | undefined, used: number): IWorksheetData["columnData"] {
  const data: IWorksheetData["columnData"] = {};
  for (const { from, to, width, hidden, style } of look?.columns ?? [])
    // A file may describe all 16,384 columns.
    for (let column = from; column <= Math.min(to, used + ROOM.leastColumns); column++)
      data[column] = {
        ...(width === undefined ? {} : { w: pixelsOfWidth(width) }),
        ...(hidden ? { hd: BooleanNumber.TRUE } : {}),
        ...(style === undefined ? {} : { s: styleId(style) }),
      };
  return data;
}

/** Heights from the file, and room for text of several lines if the file leaves that to the spreadsheet program. */
function rowData(
  { cells }: SheetModel,
  look: SheetAppearance | undefined,
  styles: readonly CellStyle[],
): IWorksheetData["rowData"] {
  const data: IWorksheetData["rowData"] = {};
  if (!look) return data;
  const wrapped = new Map(
    look.cells.flatMap(({ row, column, style }) =>
      styles[style]?.wrap ? [[placeKey(row, column), pixelsOfHeight(lineHeight(styles[style]))]] : [],
    ),
  );
  const widths = new Map<number, number>();
  for (const { from, to, width } of look.columns)
    for (let column = from; column <= Math.min(to, from + 500); column++)
      if (width !== undefined) widths.set(column, width);
  for (const { row, column, value } of cells) {
    const line = wrapped.get(placeKey(row, column));
    if (line === undefined || typeof value !== "string") continue;
    const ah = line * linesOf(value, widths.get(column) ?? look.defaultWidth ?? DEFAULT_WIDTH);
    data[row] = { ia: BooleanNumber.TRUE, ah: Math.max(data[row]?.ah ?? 0, ah) };
  }
  for (const { row, height, hidden } of look.rows)
    data[row] = {
      ...(height === undefined ? data[row] : { h: pixelsOfHeight(height), ia: BooleanNumber.FALSE }),
      ...(hidden ? { hd: BooleanNumber.TRUE } : {}),
    };
  return data;
}

/** Number of lines of a text in a column, estimated by counting characters. */
function linesOf(text: string, width: number): number {
  const most = Math.max(1, width - 1);
  return text
    .split("\n")
    .reduce((lines, paragraph) => lines + Math.max(1, Math.ceil(paragraph.length / most)), 0);
}

/** In points. */
function lineHeight({ fontSize }: CellStyle): number {
  return (fontSize ?? 11) * 1.36;
}

/** A digit of the default font is 7 pixels wide (ECMA-376 part 1, 18.3.1.13). */
function pixelsOfWidth(characters: number): number {
  return Math.trunc(((256 * characters + Math.trunc(128 / 7)) / 256) * 7);
}

function pixelsOfHeight(points: number): number {
  return Math.round((points * 4) / 3);
}
