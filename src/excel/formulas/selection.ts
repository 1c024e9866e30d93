/// <reference types="office-js" />
import type { SheetArea } from "../../cells/area.js";
import { MAX_COLS, MAX_ROWS } from "@borgar/fx/xlsx";
import { areaReference, resolveReference } from "../../formulas/references.js";
import type { OwnFunctions } from "../../formulas/own-calls.js";
import { isAgreed, type SelectedCells, type Selection } from "../../pane/ports/selection-port.js";
import { cellCount } from "../cells/blocks.js";
import { CellBatch } from "../cells/cell-batch.js";
import { HostProblem, inExcel } from "../problem.js";
import { readSpills } from "../cells/spills.js";
import { cellProtected } from "../cells/reach.js";
import { selectedFormula } from "./selected-formula.js";
import { readNames, type WorkbookNames } from "../cells/workbook-names.js";

/** More readings than anyone picks by hand. */
const MOST_CELLS = 10_000;

const tooMany = (count: number): string =>
  `These are ${count.toLocaleString("en")} cells; up to ${MOST_CELLS.toLocaleString("en")} can be read. Select fewer.`;
const nowhere = (reference: string): string =>
  `"${reference}" leads to no cells of this workbook. Write a reference such as B2:B9 or 'Brew day'!B2.`;

/** A whole column or row means its cells within the used range. */
function withinUsedRange(area: SheetArea, cells: CellBatch): SheetArea {
  const isWhole =
    (area.top === 0 && area.bottom === MAX_ROWS) || (area.left === 0 && area.right === MAX_COLS);
  return (isWhole ? cells.inUse(area) : undefined) ?? area;
}

/** @throws HostProblem if there are too many */
async function read(
  context: Excel.RequestContext,
  names: WorkbookNames,
  chosen: SheetArea,
  from: string,
): Promise<SelectedCells> {
  const cells = new CellBatch(names);
  const area = withinUsedRange(chosen, cells);
  if (cellCount(area) > MOST_CELLS) throw new HostProblem(tooMany(cellCount(area)));
  cells.need(area);
  await cells.read(context);
  return { reference: areaReference(area, from), rows: cells.rows(area) };
}

/** The user's selection. */
export function excelSelection(functions: OwnFunctions): Selection {
  return {
    read: () =>
      inExcel(async (context) => {
        const range = context.workbook.getSelectedRange();
        range.load("rowIndex,columnIndex,rowCount,columnCount");
        range.worksheet.load("name");
        const names = await readNames(context);
        const sheet = range.worksheet.name;
        const { rowIndex: top, columnIndex: left, rowCount, columnCount } = range;
        const area = { sheet, top, left, bottom: top + rowCount - 1, right: left + columnCount - 1 };
        return read(context, names, area, sheet);
      }),

    at: (reference) =>
      inExcel(async (context) => {
        const cell = context.workbook.getActiveCell();
        cell.load("rowIndex,columnIndex");
        cell.worksheet.load("name");
        const names = await readNames(context);
        const at = { sheet: cell.worksheet.name, row: cell.rowIndex, column: cell.columnIndex };
        const written = reference.trim().replace(/^=/, "").trim();
        const spilling = await readSpills(context, names, [{ ...at, formula: `=${written}` }]);
        const area = resolveReference(written, at, spilling);
        if (!area || !("sheet" in area)) throw new HostProblem(nowhere(reference));
        return read(context, names, area, at.sheet);
      }),

    insert: (formula, over) =>
      inExcel(async (context) => {
        const cell = context.workbook.getActiveCell();
        cell.load("address,formulas,values");
        cell.format.protection.load("locked");
        cell.worksheet.load("name");
        cell.worksheet.protection.load("protected");
        await context.sync();
        // A cell that another formula spills into has a value but no formula.
        const content: unknown = cell.formulas[0]?.[0] === "" ? cell.values[0]?.[0] : cell.formulas[0]?.[0];
        const held = { occupied: String(content), at: cell.address };
        if (content !== "" && !isAgreed(held, over)) return held;
        const { name, protection } = cell.worksheet;
        if (protection.protected && cell.format.protection.locked) throw new HostProblem(cellProtected(name));
        cell.formulas = [[formula]];
        await context.sync();
        return { inserted: cell.address };
      }),

    formula: () => inExcel((context) => selectedFormula(context, functions)),
  };
}
