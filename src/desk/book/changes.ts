import { placeKey } from "../../cells/place.js";
import type { CellFunctions } from "../../engine/ours/cell-functions.js";
import { fromCell } from "../../engine/grid.js";
import { alikeValues } from "../../engine/values.js";
import { boundFormula, isBound } from "../../formulas/formula-text.js";
import type { Cell, CellChange, CellValue, Formula, WorkbookModel } from "../../workbook/model.js";
import { needsArrays } from "../../formulas/needs-arrays.js";
import { storedText } from "./formula-storage.js";
import type { Live } from "../univer/live-formulas.js";
import type { PlacedCell, Sheet } from "../univer/sheet.js";
import type { UniverBook } from "../univer/univer-book.js";
import { fileStyle } from "../univer/univer-names.js";

/**
 * All differences between the sheet on the page and the file that was opened.
 *
 * @param rewrites whether formulas that spreadsheet programs do not bind to our functions count as changed
 */
export function changesSince(
  model: WorkbookModel,
  opened: UniverBook,
  sheet: Sheet,
  functions: CellFunctions,
  rewrites: boolean,
): CellChange[] {
  return model.sheets.flatMap(({ name, cells }, index) => {
    const stored = new Map(cells.map((cell) => [placeKey(cell.row, cell.column), cell]));
    const live = opened.formulas[index] ?? new Map<string, Live>();
    const changes: CellChange[] = [];
    const seen = new Set<string>();
    for (const now of sheet.cells(index)) {
      const key = placeKey(now.row, now.column);
      seen.add(key);
      const fills = sheet.filledBy({ sheet: index, ...now });
      const before = stored.get(key);
      const change = changed(before, live.get(key), now, fills, functions, rewrites);
      const style = fileStyle(now.style);
      if (change) changes.push({ sheet: name, ...change, ...(style === undefined ? {} : { style }) });
    }
    for (const [key, { row, column, formula }] of stored)
      if (!seen.has(key))
        changes.push({ sheet: name, row, column, value: null, ...(formula ? { formula: null } : {}) });
    return changes;
  });
}

type Change = Omit<CellChange, "sheet">;

function changed(
  stored: Cell | undefined,
  live: Live | undefined,
  now: PlacedCell,
  fills: { readonly rows: number; readonly columns: number },
  functions: CellFunctions,
  rewrites: boolean,
): Change | undefined {
  const { row, column } = now;
  const area = { top: row, left: column, bottom: row + fills.rows - 1, right: column + fills.columns - 1 };
  if (now.formula === undefined) {
    const isKept = live !== undefined && "kept" in live && same(stored?.value ?? null, now.value);
    if (isKept || (!stored?.formula && same(stored?.value ?? null, now.value))) return undefined;
    return { row, column, value: now.value, ...(stored?.formula ? { formula: null } : {}) };
  }
  // A cell with a formula is never blank: it shows 0.
  const value = now.value ?? 0;
  const isUntouched = live !== undefined && "text" in live && live.text === `=${now.formula}`;
  const before = isUntouched ? stored?.formula : undefined;
  if (!before) {
    const isBlocked = typeof value === "object" && value.error === "#SPILL!";
    const spills = fills.rows * fills.columns > 1 || isBlocked || needsArrays(now.formula, functions);
    const kind = spills ? "spill" : "plain";
    const text = storedText(now.formula, functions);
    return { row, column, value, formula: { text, kind, ...(kind === "spill" ? { area } : {}) } };
  }
  const kind = before.kind === "plain" && fills.rows * fills.columns > 1 ? "spill" : before.kind;
  const moved = kind === "spill" && !sameSize(before, area);
  // It keeps its form.
  if (rewrites && !isBound(before.text, functions)) {
    const text = boundFormula(before.text, functions);
    return { row, column, value, formula: { ...before, text, kind, ...(moved && { area }) } };
  }
  // Differences in the last digits between two spreadsheet programs are not changes.
  if (!moved && alikeValues(fromCell(stored?.value ?? null), fromCell(value))) return undefined;
  return { row, column, value, ...(moved ? { formula: { text: before.text, kind, area } } : {}) };
}

function sameSize({ area: a }: Formula, b: NonNullable<Formula["area"]>): boolean {
  return a !== undefined && a.bottom - a.top === b.bottom - b.top && a.right - a.left === b.right - b.left;
}

function same(a: CellValue, b: CellValue): boolean {
  return alikeValues(fromCell(a), fromCell(b)) && typeof a === typeof b;
}
