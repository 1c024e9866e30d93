import type { Area } from "../../cells/area.js";
import type { Position } from "../../cells/place.js";
import type { PositionedArea } from "../values.js";

/** Formulas whose values fill cells of one column, in order of rows. */
export interface OutputColumn {
  readonly rows: readonly number[];
  readonly formulas: readonly number[];
}

/** Which formula fills which cell, by itself or by its array. */
export class OutputIndex {
  /** By sheet, then by column. */
  readonly #sheets: Map<number, { readonly rows: number[]; readonly formulas: number[] }>[] = [];
  readonly #columns: (readonly number[])[] = [];

  /** @param areas of formulas that fill more than their own cell */
  constructor(formulas: readonly Position[], areas: ReadonlyMap<number, Area>) {
    for (const [formula, { sheet, row, column }] of formulas.entries()) {
      this.#put(sheet, row, column, formula);
    }
    for (const [formula, { top, left, bottom, right }] of areas) {
      const anchor = formulas[formula];
      if (!anchor) continue;
      for (let column = left; column <= right; column++) {
        for (let row = top; row <= bottom; row++) {
          if (row !== anchor.row || column !== anchor.column) this.#put(anchor.sheet, row, column, formula);
        }
      }
    }
    for (const columns of this.#sheets) for (const output of columns.values()) sort(output);
    for (const columns of this.#sheets) this.#columns.push([...columns.keys()].sort((a, b) => a - b));
  }

  at(sheet: number, row: number, column: number): number | undefined {
    const output = this.#sheets[sheet]?.get(column);
    if (!output) return undefined;
    const { rows } = output;
    // Most columns are filled without gaps.
    const level = row - (rows[0] ?? 0);
    const place = rows[level] === row ? level : lowerBound(rows, row);
    return rows[place] === row ? output.formulas[place] : undefined;
  }

  /** Calls back for each column in which an area meets formulas, with the places from "first" up to before "end". */
  visit(
    area: PositionedArea,
    f: (output: OutputColumn, first: number, end: number, column: number) => void,
  ): void {
    const { sheet } = area;
    const columns = this.#columns[sheet] ?? [];
    for (let i = lowerBound(columns, area.left); i < columns.length; i++) {
      const column = columns[i];
      if (column === undefined || column > area.right) return;
      const output = this.#sheets[sheet]?.get(column);
      if (!output) continue;
      const first = lowerBound(output.rows, area.top);
      const end = lowerBound(output.rows, area.bottom + 1);
      if (first < end) f(output, first, end, column);
    }
  }

  /** All columns in a fixed order. */
  *columns(): Generator<readonly [sheet: number, column: number, output: OutputColumn]> {
    for (const [sheet, columns] of this.#sheets.entries()) {
      for (const column of this.#columns[sheet] ?? []) {
        const output = columns.get(column);
        if (output) yield [sheet, column, output];
      }
    }
  }

  #put(sheet: number, row: number, column: number, formula: number): void {
    while (this.#sheets.length <= sheet) this.#sheets.push(new Map());
    const columns = this.#sheets[sheet];
    const output = columns?.get(column) ?? { rows: [], formulas: [] };
    columns?.set(column, output);
    output.rows.push(row);
    output.formulas.push(formula);
  }
}

/** The first place whose value is not below the one sought. */
function lowerBound(sorted: readonly number[], sought: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? Infinity) < sought) low = middle + 1;
    else high = middle;
  }
  return low;
}

function sort(output: { readonly rows: number[]; readonly formulas: number[] }): void {
  const { rows, formulas } = output;
  if (rows.every((row, i) => i === 0 || row > (rows[i - 1] ?? 0))) return;
  const order = rows.map((_, i) => i).sort((a, b) => (rows[a] ?? 0) - (rows[b] ?? 0));
  const sortedRows = order.map((i) => rows[i] ?? 0);
  const sortedFormulas = order.map((i) => formulas[i] ?? 0);
  for (let i = 0; i < order.length; i++) {
    rows[i] = sortedRows[i] ?? 0;
    formulas[i] = sortedFormulas[i] ?? 0;
  }
}
