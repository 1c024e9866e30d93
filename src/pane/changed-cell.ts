import { cellAt } from "./cell-name.js";
import type { CellPlace, CellResult } from "./ports.js";

/** A cell that shows something else than before, or would. */
export interface ChangedCell extends CellPlace {
  /** The function that gives it; undefined where a formula calculates more than one call. */
  readonly by: string | undefined;
  readonly before: CellResult | undefined;
  readonly after: CellResult | undefined;
  /** Expanded uncertainty (k = 2) of what it shows afterwards, in its own units; undefined where nothing says it. */
  readonly plusMinus: number | undefined;
}

/** Whether a change means something: by more than the result is sure to, by less, or nobody knows. */
export type Weight = "beyond" | "within" | "unknown";

/** Differences that no cell shows. */
const DUST = 1e-9;

type Cells = readonly (readonly (CellResult | undefined)[])[];

export function isSame(before: CellResult | undefined, after: CellResult | undefined): boolean {
  if (typeof before === "number" && typeof after === "number") return Math.abs(before - after) <= DUST;
  if (typeof before === "object" && typeof after === "object")
    // A cell shows the code of its error and may keep the message to itself.
    return (
      before.code === after.code &&
      (before.message === "" || after.message === "" || before.message === after.message)
    );
  return before === after;
}

/** How far a number moved; undefined where something else came or went. */
export const differenceOf = ({ before, after }: ChangedCell): number | undefined =>
  typeof before === "number" && typeof after === "number" ? after - before : undefined;

/** An error that comes or goes always means something. */
export function weightOf(cell: ChangedCell): Weight {
  const difference = differenceOf(cell);
  if (difference === undefined) return "beyond";
  if (cell.plusMinus === undefined) return "unknown";
  return Math.abs(difference) > cell.plusMinus ? "beyond" : "within";
}

/** What changed among the cells that a formula fills. */
export function changedCells(
  { sheet, address }: CellPlace,
  by: string | undefined,
  before: Cells,
  after: Cells,
  plusMinus: Cells | undefined,
): ChangedCell[] {
  const rows = Array.from({ length: Math.max(before.length, after.length) }, (_, down) => down);
  return rows.flatMap((down) => {
    const width = Math.max(before[down]?.length ?? 0, after[down]?.length ?? 0);
    return Array.from({ length: width }, (_, across): ChangedCell => {
      const sure = plusMinus?.[down]?.[across];
      return {
        sheet,
        address: cellAt(address, down, across),
        by,
        before: before[down]?.[across],
        after: after[down]?.[across],
        plusMinus: typeof sure === "number" ? sure : undefined,
      };
    }).filter((cell) => !isSame(cell.before, cell.after));
  });
}
