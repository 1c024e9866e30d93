import type { Position } from "../../cells/place.js";
import {
  CellValueType,
  ICommandService,
  IUniverInstanceService,
  UniverInstanceType,
  type ICellData,
  type Nullable,
  type Workbook,
  type Worksheet,
} from "@univerjs/core";
import { FormulaDataModel, SetFormulaCalculationStartMutation } from "@univerjs/engine-formula";
import type { CellValue } from "../../workbook/model.js";
import { START, type UniverSheet } from "./univer.js";
import { cellValue } from "./univer-cell.js";
import type { UniverBook } from "./univer-book.js";
import { sheetId } from "./univer-names.js";

/** Current content of a cell. */
export interface SheetCell {
  readonly value: CellValue;
  /** Without "="; undefined if a neighbour's formula fills the cell. */
  readonly formula: string | undefined;
  /** Univer's id of its style. */
  readonly style: string | undefined;
}

/** A cell with its place; row and column count from 0. */
export interface PlacedCell extends SheetCell {
  readonly row: number;
  readonly column: number;
}

/** The longest calculation, in milliseconds. */
const LONGEST_CALCULATION_MS = 600_000;

/** The open workbook as it is on the page now. */
export class Sheet {
  readonly #instances: IUniverInstanceService;
  readonly #formulas: FormulaDataModel;
  #unit = START;

  constructor(readonly engine: UniverSheet) {
    const injector = engine.univer.__getInjector();
    this.#instances = injector.get<IUniverInstanceService>(IUniverInstanceService);
    this.#formulas = injector.get(FormulaDataModel);
  }

  get unit(): string {
    return this.#unit;
  }

  /** Replaces the open workbook; resolves when the new one is calculated. */
  async show({ data }: UniverBook): Promise<void> {
    const before = this.#unit;
    this.engine.api.createWorkbook(data);
    this.#unit = data.id;
    this.engine.api.disposeUnit(before);
    await this.settled();
  }

  /** Resolves when all pending calculations are done. */
  settled(): Promise<void> {
    return this.engine.api.getFormula().onCalculationResultApplied(LONGEST_CALCULATION_MS);
  }

  /** A cell, including values spilled into it. */
  at({ sheet, row, column }: Position): SheetCell {
    const raw = this.#worksheet(sheet)?.getCellRaw(row, column);
    return this.#cell(sheet, row, column, raw);
  }

  /** Every cell of a sheet that is not blank or is filled by a formula. */
  *cells(sheet: number): Generator<PlacedCell> {
    const matrix = this.#worksheet(sheet)?.getCellMatrix().getMatrix() ?? {};
    const spilled = this.#spilled(sheet);
    for (const [row, line] of numbered(matrix))
      for (const [column, raw] of numbered(line)) {
        const cell = this.#cell(sheet, row, column, raw);
        if (cell.value !== null || cell.formula !== undefined) yield { row, column, ...cell };
      }
    for (const [row, line] of numbered(spilled))
      for (const [column] of numbered(line))
        if (isBlank(matrix[row]?.[column]))
          yield { row, column, ...this.#cell(sheet, row, column, undefined) };
  }

  /** Rows and columns of the sheet on the page. */
  extent(sheet: number): { readonly height: number; readonly width: number } {
    const worksheet = this.#worksheet(sheet);
    return { height: worksheet?.getRowCount() ?? 0, width: worksheet?.getColumnCount() ?? 0 };
  }

  /** Rows and columns that a formula fills, including its own cell. */
  filledBy({ sheet, row, column }: Position): { readonly rows: number; readonly columns: number } {
    const range = this.#formulas.getArrayFormulaRange()[this.#unit]?.[sheetId(sheet)]?.[row]?.[column];
    if (!range) return { rows: 1, columns: 1 };
    return { rows: range.endRow - range.startRow + 1, columns: range.endColumn - range.startColumn + 1 };
  }

  /** The cell whose formula fills this one, or this one itself. */
  anchorOf(place: Position): Position {
    const ranges = numbered(this.#formulas.getArrayFormulaRange()[this.#unit]?.[sheetId(place.sheet)]);
    const { row, column } = place;
    const range = ranges
      .flatMap(([, line]) => numbered(line).map(([, filled]) => filled))
      .find((r) => row >= r.startRow && row <= r.endRow && column >= r.startColumn && column <= r.endColumn);
    return range ? { sheet: place.sheet, row: range.startRow, column: range.startColumn } : place;
  }

  /** Recalculates the formulas of these cells and their dependents. */
  async recalculate(places: readonly Position[]): Promise<void> {
    if (places.length === 0) return;
    const dirtyRanges = places.map(({ sheet, row, column }) => ({
      unitId: this.#unit,
      sheetId: sheetId(sheet),
      range: { startRow: row, endRow: row, startColumn: column, endColumn: column },
    }));
    const settled = this.settled();
    await this.#commands().executeCommand(
      SetFormulaCalculationStartMutation.id,
      {
        dirtyRanges,
        forceCalculation: false,
        dirtyNameMap: {},
        dirtyDefinedNameMap: {},
        dirtySuperTableMap: {},
        dirtyUnitFeatureMap: {},
        dirtyUnitOtherFormulaMap: {},
        clearDependencyTreeCache: {},
      },
      { onlyLocal: true },
    );
    await settled;
  }

  /** Writes to cells as if typed: formulas with "=", and texts. Can be undone. */
  async write(cells: readonly (Position & { readonly text: string })[]): Promise<void> {
    for (const sheet of new Set(cells.map((cell) => cell.sheet))) {
      const there = cells.filter((cell) => cell.sheet === sheet);
      const value: Record<number, Record<number, ICellData>> = {};
      for (const { row, column, text } of there)
        (value[row] ??= {})[column] = text.startsWith("=")
          ? { f: text, v: null, t: null, si: null, p: null }
          : { v: text, t: CellValueType.STRING, f: null, si: null, p: null };
      await this.#commands().executeCommand("sheet.command.set-range-values", {
        unitId: this.#unit,
        subUnitId: sheetId(sheet),
        value,
      });
    }
  }

  /** The selected cells; the last selection if there are several. */
  selected(): (Position & { readonly bottom: number; readonly right: number }) | undefined {
    const book = this.engine.api.getActiveWorkbook();
    const range = book?.getActiveRange();
    if (!book || !range) return undefined;
    const sheet = this.#order().indexOf(book.getActiveSheet().getSheetId());
    return {
      sheet,
      row: range.getRow(),
      column: range.getColumn(),
      bottom: range.getLastRow(),
      right: range.getLastColumn(),
    };
  }

  /** Selects a cell and scrolls to it, on a hidden sheet too. */
  reveal({ sheet, row, column }: Position): void {
    const book = this.engine.api.getActiveWorkbook();
    const worksheet = book?.getSheetBySheetId(sheetId(sheet));
    if (!book || !worksheet) return;
    const isActive = book.getActiveSheet().getSheetId() === sheetId(sheet);
    if (worksheet.isSheetHidden()) worksheet.showSheet();
    worksheet.activate();
    worksheet.getRange(row, column).activate();
    // A sheet that was not shown before has no visible range yet.
    const seen = isActive ? worksheet.getVisibleRange() : null;
    const isSeen =
      seen !== null &&
      row >= seen.startRow &&
      row < seen.endRow &&
      column >= seen.startColumn &&
      column < seen.endColumn;
    if (!isSeen) worksheet.scrollToCell(Math.max(0, row - 3), Math.max(0, column - 2));
  }

  /** @returns undefined for a cell beyond the edge of the sheet */
  placeOf(sheet: string, row: number, column: number): Position | undefined {
    const worksheet = this.#instances.getUnit<Workbook>(this.#unit)?.getSheetBySheetId(sheet);
    return worksheet ? { sheet: this.#order().indexOf(sheet), row, column } : undefined;
  }

  #cell(sheet: number, row: number, column: number, raw: Nullable<ICellData>): SheetCell {
    const text =
      raw?.f || raw?.si ? this.#formulas.getFormulaStringByCell(row, column, sheetId(sheet), this.#unit) : "";
    const formula = text ? text.replace(/^=/, "") : undefined;
    const style = typeof raw?.s === "string" ? raw.s : undefined;
    const filled = formula === undefined && isBlank(raw) ? this.#spilled(sheet)[row]?.[column] : undefined;
    // A cell filled by a formula is never blank: it shows 0.
    const value = filled ? (cellValue(filled, true) ?? 0) : cellValue(raw);
    return { value, formula, style };
  }

  #spilled(
    sheet: number,
  ): Readonly<Record<number, Readonly<Record<number, Nullable<ICellData>>> | undefined>> {
    return this.#formulas.getArrayFormulaCellData()[this.#unit]?.[sheetId(sheet)] ?? {};
  }

  #worksheet(sheet: number): Nullable<Worksheet> {
    return this.#instances
      .getUnit<Workbook>(this.#unit, UniverInstanceType.UNIVER_SHEET)
      ?.getSheetBySheetId(sheetId(sheet));
  }

  #order(): readonly string[] {
    return this.#instances.getUnit<Workbook>(this.#unit)?.getSheetOrders() ?? [];
  }

  #commands(): ICommandService {
    return this.engine.univer.__getInjector().get<ICommandService>(ICommandService);
  }
}

function isBlank(raw: Nullable<ICellData>): boolean {
  return !raw || ((raw.v === undefined || raw.v === null || raw.v === "") && !raw.f && !raw.si && !raw.p);
}

/** Rows or cells with their indices, as Univer stores them. */
function numbered<T>(lines: Nullable<Readonly<Record<number, T>>>): (readonly [number, T])[] {
  return Object.entries(lines ?? {}).map(([number, value]) => [Number(number), value]);
}
