import { positionNumber } from "../cells/place.js";
import { lastColumn, lastRow } from "../cells/limits.js";
import { type Area, forEachCell } from "../cells/area.js";
import type { Table } from "../workbook/model.js";
import { addressOf } from "./references/address.js";
import type { Book } from "./references/book.js";
import { type FormulaCell, storedArea } from "./plan/formula-cells.js";
import { type Grid } from "./grid.js";
import { spillBlocked, spillTooLarge } from "./messages.js";
import { FormulaError, elementAt, Values, type FormulaValue, type Scalar } from "./values.js";

/** Writes the results of formulas to cells; those of array formulas to all cells that they fill. */
export class Landing {
  /** The cells that array formulas fill now, by number of the formula. */
  readonly areas = new Map<number, Area>();
  /** Dynamic arrays that are blocked. */
  readonly blocked = new Map<number, FormulaError>();
  /** Plain formulas that came to several values, of which their cells show the first. */
  readonly cutOff = new Set<number>();
  /** Which formula a cell holds, or is filled by. */
  readonly #taken = new Map<number, number>();

  /**
   * @param filled the cells that array formulas fill in the grid
   * @param grid the workbook, to be changed; dynamic arrays that are evaluated release their cells at once
   */
  constructor(
    readonly formulas: readonly FormulaCell[],
    evaluated: ReadonlySet<number>,
    filled: ReadonlyMap<number, Area>,
    readonly grid: Grid,
    readonly book: Book,
    readonly tables: readonly Table[],
  ) {
    // Only arrays can block other formulas or be blocked.
    if (formulas.every(({ formula }) => formula.kind === "plain")) return;
    for (const [formula, cell] of formulas.entries()) {
      this.#taken.set(positionNumber(cell.sheet, cell.row, cell.column), formula);
      if (cell.formula.kind === "plain") continue;
      const area = filled.get(formula) ?? storedArea(cell);
      if (cell.formula.kind === "spill" && evaluated.has(formula)) {
        forEachCell(area, (row, column) => {
          if (row !== cell.row || column !== cell.column) grid.set(cell.sheet, row, column, null);
        });
      } else this.#take(formula, cell, area);
    }
  }

  land(formula: number, cell: FormulaCell, value: FormulaValue): void {
    switch (cell.formula.kind) {
      case "plain":
        if (value instanceof Values && value.height * value.width > 1) this.cutOff.add(formula);
        this.#put(cell.sheet, cell.row, cell.column, value instanceof Values ? value.at(0, 0) : value);
        return;
      case "array": {
        const area = storedArea(cell);
        forEachCell(area, (row, column) => {
          this.#put(cell.sheet, row, column, elementAt(value, row - area.top, column - area.left));
        });
        return;
      }
      case "spill":
        this.#spill(formula, cell, value instanceof Values ? value : new Values([[value]]));
    }
  }

  /** Restores the values that the file has for a formula. */
  restore(formula: number, cell: FormulaCell, stored: Grid): void {
    const area = storedArea(cell);
    forEachCell(area, (row, column) => {
      this.grid.set(cell.sheet, row, column, stored.get(cell.sheet, row, column));
    });
    if (cell.formula.kind !== "plain") this.#take(formula, cell, area);
  }

  #spill(formula: number, cell: FormulaCell, value: Values): void {
    const { sheet, row, column } = cell;
    const area = { top: row, left: column, bottom: row + value.height - 1, right: column + value.width - 1 };
    const obstacle = this.#obstacle(formula, sheet, area);
    if (obstacle !== undefined) {
      const error = new FormulaError("#SPILL!", obstacle);
      this.blocked.set(formula, error);
      this.#put(sheet, row, column, error);
      this.#take(formula, cell, { top: row, left: column, bottom: row, right: column });
      return;
    }
    this.#take(formula, cell, area);
    forEachCell(area, (r, c) => {
      this.#put(sheet, r, c, value.at(r - row, c - column));
    });
  }

  #obstacle(formula: number, sheet: number, area: Area): string | undefined {
    const { top, left, bottom, right } = area;
    if (top === bottom && left === right) return undefined;
    if (bottom > lastRow || right > lastColumn) return spillTooLarge;
    for (let row = top; row <= bottom; row++) {
      for (let column = left; column <= right; column++) {
        if (row === top && column === left) continue;
        const taker = this.#taken.get(positionNumber(sheet, row, column));
        const free = (taker === undefined || taker === formula) && this.grid.get(sheet, row, column) === null;
        if (!free) return spillBlocked(addressOf({ sheet, row, column }, this.book));
      }
    }
    const table = this.tables.find(
      (candidate) => this.book.sheetNamed(candidate.sheet) === sheet && overlap(area, candidate.area),
    );
    return table && spillBlocked(table.name);
  }

  #take(formula: number, cell: FormulaCell, area: Area): void {
    this.areas.set(formula, { top: area.top, left: area.left, bottom: area.bottom, right: area.right });
    forEachCell(area, (row, column) => {
      this.#taken.set(positionNumber(cell.sheet, row, column), formula);
    });
  }

  /** A formula never leaves a cell blank: a blank result shows as 0. */
  #put(sheet: number, row: number, column: number, value: Scalar): void {
    this.grid.set(sheet, row, column, value ?? 0);
  }
}

function overlap(a: Area, b: Area): boolean {
  return a.top <= b.bottom && b.top <= a.bottom && a.left <= b.right && b.left <= a.right;
}
