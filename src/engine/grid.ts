import type { CellValue, SheetModel, WorkbookModel } from "../workbook/model.js";
import { FormulaError, type Scalar } from "./values.js";

/** The values of all cells while a workbook is calculated. */
export class Grid {
  /** By sheet, column and row; a hole is a blank. */
  readonly #sheets: Scalar[][][];
  #height = 1;
  #width = 1;

  private constructor(
    sheets: Scalar[][][],
    /** Of each sheet the rows that are not shown; undefined where all are. */
    readonly hiddenRows: readonly SheetModel["hiddenRows"][],
  ) {
    this.#sheets = sheets;
  }

  static of(model: WorkbookModel): Grid {
    const grid = new Grid(
      model.sheets.map(() => []),
      model.sheets.map(({ hiddenRows }) => hiddenRows),
    );
    for (const [sheet, { cells }] of model.sheets.entries())
      for (const { row, column, value } of cells) grid.set(sheet, row, column, fromCell(value));
    return grid;
  }

  copy(): Grid {
    const copy = new Grid(
      this.#sheets.map((columns) => columns.map((cells) => cells.slice())),
      this.hiddenRows,
    );
    copy.#height = this.#height;
    copy.#width = this.#width;
    return copy;
  }

  /** Rows in use over all sheets, so that whole columns of two sheets are equally long. */
  get height(): number {
    return this.#height;
  }

  /** Columns in use over all sheets. */
  get width(): number {
    return this.#width;
  }

  get(sheet: number, row: number, column: number): Scalar {
    return this.#sheets[sheet]?.[column]?.[row] ?? null;
  }

  set(sheet: number, row: number, column: number, value: Scalar): void {
    const columns = this.#sheets[sheet];
    if (!columns) return;
    (columns[column] ??= [])[row] = value;
    if (row >= this.#height) this.#height = row + 1;
    if (column >= this.#width) this.#width = column + 1;
  }
}

/** Converts a stored value for calculation. */
export function fromCell(value: CellValue): Scalar {
  return typeof value === "object" && value !== null ? new FormulaError(value.error) : value;
}

/** Converts a calculated value for storage. */
export function toCell(value: Scalar): CellValue {
  return value instanceof FormulaError ? { error: value.error } : value;
}
