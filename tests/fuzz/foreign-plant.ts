// Puts formulas of ours into someone else's workbook.
import { toCol } from "@borgar/fx";
import type { Cell, CellChange, WorkbookModel } from "../../src/workbook/model.js";
import type { Dice } from "./dice.js";

/** Where formulas of ours go: beside what is there, or in place of numbers that formulas may read. */
export type Planting = "beside" | "within";
export const plantings: readonly Planting[] = ["beside", "within"];

const MOST_SHEETS = 4;
const MOST_CELLS = 4;
const LAST_COLUMN = 16_383;

/** A number that comes out as it is, whatever it is. */
const asItIs = (value: number): string => `(${value})+0*_xldudf_GYLE_ABV(1.05,1.01)`;

const addressOf = ({ row, column }: Cell): string => `${toCol(column)}${row + 1}`;

/** A few of ours, which read numbers that are there, and an ordinary formula that reads ours. */
function beside(sheet: string, cells: readonly Cell[], dice: Dice): CellChange[] {
  const right =
    cells.reduce((last, { column, formula }) => Math.max(last, column, formula?.area?.right ?? 0), 0) + 2;
  if (right + 2 > LAST_COLUMN) return [];
  const numbers = cells.filter(({ value }) => typeof value === "number");
  const read = some(numbers, dice);
  const rows = new Set(read.map(({ row }) => row));
  const planted = (row: number, at: number, text: string): CellChange => ({
    sheet,
    row,
    column: right + at,
    value: null,
    formula: { text, kind: "plain" },
  });
  return read.flatMap((cell) => {
    if (!rows.delete(cell.row)) return [];
    const here = (at: number): string => `${toCol(right + at)}${cell.row + 1}`;
    return [
      planted(cell.row, 0, "_xldudf_GYLE_ABV(1.05,1.01)"),
      planted(cell.row, 1, `_xldudf_GYLE_CONVERT(${addressOf(cell)},"P","SG")`),
      planted(cell.row, 2, `${here(0)}*2`),
    ];
  });
}

/** Numbers that were typed, calculated by ours to what they are. */
function within(sheet: string, cells: readonly Cell[], dice: Dice): CellChange[] {
  const typed = cells.filter(({ value, formula }) => typeof value === "number" && !formula);
  const spilled = (cell: Cell): boolean =>
    cells.some(({ formula }) => {
      const area = formula?.area;
      return (
        area !== undefined &&
        cell.row >= area.top &&
        cell.row <= area.bottom &&
        cell.column >= area.left &&
        cell.column <= area.right
      );
    });
  return some(typed, dice)
    .filter((cell) => !spilled(cell))
    .map(({ row, column, value }) => ({
      sheet,
      row,
      column,
      value,
      formula: { text: asItIs(value as number), kind: "plain" },
    }));
}

function some(cells: readonly Cell[], dice: Dice): Cell[] {
  if (cells.length <= MOST_CELLS) return [...cells];
  return [...new Set(Array.from({ length: MOST_CELLS }, () => dice.pick(cells)))];
}

/** Changes that bring formulas of ours into a workbook. */
export function formulasToPlant({ sheets }: WorkbookModel, planting: Planting, dice: Dice): CellChange[] {
  const plant = planting === "beside" ? beside : within;
  return sheets
    .filter(({ cells }) => cells.some(({ value }) => typeof value === "number"))
    .slice(0, MOST_SHEETS)
    .flatMap(({ name, cells }) => plant(name, cells, dice));
}
