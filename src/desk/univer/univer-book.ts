import { placeKey } from "../../cells/place.js";
import {
  CellValueType,
  LocaleType,
  type ICellData,
  type IWorkbookData,
  type IWorksheetData,
} from "@univerjs/core";
import { fromCell } from "../../engine/grid.js";
import { toUniverCell } from "../../engine/univer/univer-values.js";
import type { Appearance } from "../../workbook/style/appearance.js";
import type { Cell, CellValue, SheetModel, WorkbookModel } from "../../workbook/model.js";
import type { SheetAppearance } from "../../workbook/sheet/sheet-appearance.js";
import type { CellStyle } from "../../workbook/style/styles.js";
import type { Live, LiveFormulas } from "./live-formulas.js";
import { univerLayout } from "./univer-layout.js";
import { sheetId, styleId } from "./univer-names.js";
import { univerStyle } from "./univer-style.js";

/** A workbook for Univer, and how the sheet treats each formula, by sheet and cell. */
export interface UniverBook {
  readonly data: IWorkbookData;
  readonly formulas: readonly ReadonlyMap<string, Live>[];
}

/** @param id unique on the page: Univer caches parsed formulas by it */
export function univerBook(
  id: string,
  model: WorkbookModel,
  look: Appearance,
  live: LiveFormulas,
): UniverBook {
  const formulas = model.sheets.map((sheet, index) => liveFormulas(sheet, index, live));
  const sheets = model.sheets.map((sheet, index) =>
    worksheet(
      sheetId(index),
      sheet,
      look.sheets[index],
      look.styles,
      formulas[index] ?? new Map<string, Live>(),
    ),
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

function liveFormulas({ cells }: SheetModel, sheet: number, live: LiveFormulas): Map<string, Live> {
  const all = new Map<string, Live>();
  for (const { row, column, formula } of cells)
    if (formula) all.set(placeKey(row, column), live.of(formula, { sheet, row, column }));
  return all;
}

function worksheet(
  id: string,
  sheet: SheetModel,
  look: SheetAppearance | undefined,
  styles: readonly CellStyle[],
  formulas: ReadonlyMap<string, Live>,
): Partial<IWorksheetData> {
  const cellData: Record<number, Record<number, ICellData>> = {};
  const put = (row: number, column: number, data: ICellData): void => {
    const line = (cellData[row] ??= {});
    line[column] = { ...line[column], ...data };
  };
  const spilled = spilledCells(sheet, formulas);
  for (const cell of sheet.cells) {
    const { row, column } = cell;
    // The formula fills these cells itself: a value in its way would block it.
    if (spilled.has(placeKey(row, column))) continue;
    put(row, column, cellContent(cell, formulas.get(placeKey(row, column))));
  }
  for (const { row, column, style } of look?.cells ?? []) put(row, column, { s: styleId(style) });
  return { id, name: sheet.name, cellData, ...univerLayout(sheet, look, styles) };
}

/** Cells that formulas fill in addition to their own. */
function spilledCells({ cells }: SheetModel, formulas: ReadonlyMap<string, Live>): ReadonlySet<string> {
  const filled = new Set<string>();
  for (const { row, column, formula } of cells) {
    const live = formulas.get(placeKey(row, column));
    if (!formula?.area || !live || "kept" in live) continue;
    const { top, left, bottom, right } = formula.area;
    for (let r = top; r <= bottom; r++)
      for (let c = left; c <= right; c++) if (r !== row || c !== column) filled.add(placeKey(r, c));
  }
  return filled;
}

/**
 * Univer trusts a value stored with a formula; our own functions are always recalculated, so their values are omitted.
 */
function cellContent({ value, formula }: Cell, live: Live | undefined): ICellData {
  if (!live || "kept" in live) return univerValue(value);
  const trusted = live.own || formula?.kind === "spill" ? {} : univerValue(value);
  return { ...trusted, f: live.text };
}

/** Text is marked as such only if Univer could read it as something else: the mark shows in the formula bar. */
export function univerValue(value: CellValue): ICellData {
  if (typeof value === "string" && !/^\s*[-+.=#\d]/.test(value) && !/^(true|false)$/i.test(value))
    return value === "" ? {} : { v: value, t: CellValueType.STRING };
  const { v, t } = toUniverCell(fromCell(value)) ?? {};
  return { ...(v === undefined ? {} : { v }), ...(t === undefined ? {} : { t }) };
}
