import { checkPlace } from "./check-place.js";
import { editCell, holdsValue, type CellTask } from "./cell-patch.js";
import { writeCell } from "./cell-write.js";
import { formulaChange } from "./formula-change.js";
import { columnLimit } from "../../cells/limits.js";
import type { Cell, CellChange } from "../model.js";
import { insertCells, type NewCell } from "./sheet-insert.js";
import { plainCell } from "./plain-cell.js";
import { lowerBound, type CellSpot, type SheetLayout } from "./sheet-layout.js";
import { shift, type Splice } from "../xml/xml-splice.js";

/** Changes to one sheet's part. */
export interface SheetPatch {
  readonly edits: readonly Splice[];
  /** Some formula was set, replaced or removed, so the calculation chain is out of date. */
  readonly formulaChanged: boolean;
}

/**
 * Edits that apply the changes to a sheet. If a cell is changed several times, the last change counts.
 *
 * @param cells of the sheet, as read
 * @param spillMetadata gives the "cm" of a formula that spills; called only if one is set
 * @throws WorkbookError for a cell outside the sheet
 * @throws RangeError for a value that no cell can hold
 */
export function patchSheet(
  layout: SheetLayout,
  cells: readonly Cell[],
  changes: readonly CellChange[],
  spillMetadata: () => number,
): SheetPatch {
  const edits: Splice[] = [];
  const added: NewCell[] = [];
  let formulaChanged = false;
  for (const task of tasksFor(layout, cells, changes)) {
    const { row, column, stored, value, formula } = task;
    if (formula.to === "keep" && holdsValue(stored, value)) continue;
    const spills = formula.to === "formula" && formula.formula.kind === "spill";
    const cm = spills ? spillMetadata() : undefined;
    const spot = findSpot(layout, row, column);
    if (spot) {
      const xml = layout.xml.slice(spot.start, spot.end);
      const plain = formula.to === "keep" && layout.prefix === "" ? plainCell(xml, value) : undefined;
      if (plain !== undefined) {
        edits.push({ start: spot.start, end: spot.end, text: plain });
        continue;
      }
      const edited = editCell(layout.part, xml, layout.prefix, task, cm);
      edits.push(...shift(edited.edits, spot.start));
      formulaChanged ||= edited.formulaChanged;
    } else if (formula.to === "formula" || value !== null) {
      const own = formula.to === "formula" ? formula.formula : undefined;
      added.push({ row, column, text: writeCell(task, value, own, cm, layout.prefix, task.style) });
      formulaChanged ||= own !== undefined;
    }
  }
  return { edits: [...edits, ...insertCells(layout, added)], formulaChanged };
}

/** One task per cell, in reading order; cells whose shared formula loses its text get their own. */
function tasksFor(layout: SheetLayout, cells: readonly Cell[], changes: readonly CellChange[]): CellTask[] {
  const tasks = new Map<number, CellTask>();
  for (const { row, column, value, formula, style } of changes) {
    checkPlace(row, column);
    const stored = findCell(cells, row, column);
    tasks.set(order(row, column), {
      row,
      column,
      stored,
      value,
      formula: formulaChange(stored?.formula, formula),
      style,
    });
  }
  for (const shared of layout.shared) {
    const change = tasks.get(order(shared.row, shared.column))?.formula.to;
    if (change !== "formula" && change !== "nothing") continue;
    for (const { row, column } of shared.dependants) {
      const key = order(row, column);
      const stored = findCell(cells, row, column);
      const task = tasks.get(key) ?? {
        row,
        column,
        stored,
        value: stored?.value ?? null,
        formula: { to: "keep" },
      };
      if (task.formula.to !== "keep" || !stored?.formula) continue;
      tasks.set(key, { ...task, formula: { to: "own", text: stored.formula.text } });
    }
  }
  return [...tasks.values()].sort((a, b) => order(a.row, a.column) - order(b.row, b.column));
}

function order(row: number, column: number): number {
  return row * columnLimit + column;
}

function findCell(cells: readonly Cell[], row: number, column: number): Cell | undefined {
  const found = cells[lowerBound(cells, (cell) => order(cell.row, cell.column), order(row, column))];
  return found?.row === row && found.column === column ? found : undefined;
}

function findSpot({ rows }: SheetLayout, row: number, column: number): CellSpot | undefined {
  const found = rows[lowerBound(rows, (spot) => spot.row, row)];
  if (found?.row !== row) return undefined;
  const cell = found.cells[lowerBound(found.cells, (spot) => spot.column, column)];
  return cell?.column === column ? cell : undefined;
}
