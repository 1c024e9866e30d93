/// <reference types="office-js" />
import type { SheetArea } from "../../cells/area.js";
import type { SheetPlace } from "../../cells/place.js";
import { blocks } from "./blocks.js";
import type { WorkbookNames } from "./workbook-names.js";

/** Content of a cell in the sheet. */
export interface ReadCell {
  /** As typed in en-US: a constant is itself, a blank is "". */
  readonly formula: unknown;
  readonly value: unknown;
  readonly isError: boolean;
}

const outside: ReadCell = { formula: "", value: "", isError: false };

interface Column {
  top: number;
  bottom: number;
  readonly cells: ReadCell[];
}

/**
 * Scattered cells of the workbook, read in batches: first request them with `need`, then `read` them all, then look
 * them up.
 */
export class CellBatch {
  readonly #sheets = new Map<string, Map<number, Column>>();

  constructor(private readonly names: WorkbookNames) {}

  /** Requests an area. Cells outside the used range are blank and are not read. */
  need(area: SheetArea): void {
    const inUse = this.inUse(area);
    if (!inUse) return;
    const { sheet, top, left, bottom, right } = inUse;
    const columns = this.#sheets.get(sheet) ?? new Map<number, Column>();
    this.#sheets.set(sheet, columns);
    for (let c = left; c <= right; c++) {
      const column = columns.get(c);
      if (!column) columns.set(c, { top, bottom, cells: [] });
      else {
        column.top = Math.min(column.top, top);
        column.bottom = Math.max(column.bottom, bottom);
      }
    }
  }

  async read(context: Excel.RequestContext, signal?: AbortSignal): Promise<void> {
    for (const [sheet, columns] of this.#sheets)
      for (const area of joined(sheet, columns))
        for await (const { range } of blocks(context, area, "formulas,values,valueTypes", signal)) {
          const formulas: unknown[][] = range.formulas;
          const values: unknown[][] = range.values;
          const valueTypes: string[][] = range.valueTypes;
          for (let c = area.left; c <= area.right; c++)
            for (const [r, row] of formulas.entries()) {
              const i = c - area.left;
              columns.get(c)?.cells.push({
                formula: row[i],
                value: values[r]?.[i],
                isError: valueTypes[r]?.[i] === "Error",
              });
            }
        }
  }

  cell({ sheet, row, column }: SheetPlace): ReadCell {
    const found = this.#sheets.get(sheet)?.get(column);
    return found?.cells[row - found.top] ?? outside;
  }

  /** The cells of an area within the used range, row by row. */
  *cells(area: SheetArea): Generator<SheetPlace & ReadCell, void, undefined> {
    const inUse = this.inUse(area);
    if (!inUse) return;
    for (let row = inUse.top; row <= inUse.bottom; row++)
      for (let column = inUse.left; column <= inUse.right; column++) {
        const place = { sheet: inUse.sheet, row, column };
        yield { ...place, ...this.cell(place) };
      }
  }

  /** All cells of an area in the form that a function receives. */
  rows({ sheet, top, left, bottom, right }: SheetArea): unknown[][] {
    return Array.from({ length: bottom - top + 1 }, (_, r) =>
      Array.from({ length: right - left + 1 }, (_, c) => {
        const { value, isError } = this.cell({ sheet, row: top + r, column: left + c });
        return isError ? { code: value } : value;
      }),
    );
  }

  /** The part of an area within the used range. */
  inUse(area: SheetArea): SheetArea | undefined {
    const used = this.names.sheetInfo(area.sheet)?.used;
    if (!used) return undefined;
    const top = Math.max(area.top, used.top);
    const left = Math.max(area.left, used.left);
    const bottom = Math.min(area.bottom, used.bottom);
    const right = Math.min(area.right, used.right);
    return top <= bottom && left <= right ? { sheet: used.sheet, top, left, bottom, right } : undefined;
  }
}

/** Merges adjacent columns that are needed over the same rows, to read them together. */
function joined(sheet: string, columns: ReadonlyMap<number, Column>): SheetArea[] {
  const areas: { sheet: string; top: number; left: number; bottom: number; right: number }[] = [];
  for (const [c, { top, bottom }] of [...columns].sort(([a], [b]) => a - b)) {
    const last = areas.at(-1);
    if (last?.right === c - 1 && last.top === top && last.bottom === bottom) last.right = c;
    else areas.push({ sheet, top, left: c, bottom, right: c });
  }
  return areas;
}
