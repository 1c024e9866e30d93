import { cellAt } from "./cell-name.js";

/** The value that a cell shows: an error with its message, if known. */
export type ShownValue = number | string | boolean | { readonly code: string; readonly message: string };

interface CellPlace {
  readonly sheet: string;
  /** Such as "M4". */
  readonly address: string;
}

/** A cell that shows something else than before, or would. */
export interface ChangedCell extends CellPlace {
  /** The function that gives it; undefined if the formula is more than a single call. */
  readonly by: string | undefined;
  readonly before: ShownValue | undefined;
  readonly after: ShownValue | undefined;
  /** Expanded uncertainty (k = 2) of the new value, in its own units; undefined if unknown. */
  readonly plusMinus: number | undefined;
}

/** Converts what a host reads from a cell, whether it reads an error as text or as its code. */
export function asShown(value: unknown): ShownValue {
  if (typeof value === "object" && value !== null && "code" in value)
    return { code: String(value.code), message: "" };
  if (typeof value === "number" || typeof value === "boolean") return value;
  if (typeof value !== "string") return "";
  return /^#[A-Z/0!?]+$/.test(value) ? { code: value, message: "" } : value;
}

/** Significance of a change: larger than the uncertainty of the result, smaller, or unknown. */
export type Significance = "beyond" | "within" | "unknown";

/** Smaller differences are not visible in any cell. */
const ROUNDING_ERROR = 1e-9;

type Cells = readonly (readonly (ShownValue | undefined)[])[];

export function showsSame(before: ShownValue | undefined, after: ShownValue | undefined): boolean {
  if (typeof before === "number" && typeof after === "number")
    return Math.abs(before - after) <= ROUNDING_ERROR;
  if (typeof before === "object" && typeof after === "object")
    // A cell shows the code of its error, but not always the message.
    return (
      before.code === after.code &&
      (before.message === "" || after.message === "" || before.message === after.message)
    );
  return before === after;
}

/** Difference of two numbers; undefined if either is not a number. */
export const differenceOf = ({ before, after }: ChangedCell): number | undefined =>
  typeof before === "number" && typeof after === "number" ? after - before : undefined;

/** An error that appears or disappears is always significant. */
export function significanceOf(cell: ChangedCell): Significance {
  const difference = differenceOf(cell);
  if (difference === undefined) return "beyond";
  if (cell.plusMinus === undefined) return "unknown";
  return Math.abs(difference) > cell.plusMinus ? "beyond" : "within";
}

/**
 * What changed among the cells that a formula fills.
 *
 * @param plusMinus uncertainty of each result: evaluated only if it changed, since it takes as long as many
 *   calculations
 */
export function changedCells(
  { sheet, address }: CellPlace,
  by: string | undefined,
  before: Cells,
  after: Cells,
  plusMinus: () => Cells | undefined,
): ChangedCell[] {
  const height = Math.max(before.length, after.length);
  const moved = Array.from({ length: height }, (_, down) => {
    const width = Math.max(before[down]?.length ?? 0, after[down]?.length ?? 0);
    return Array.from({ length: width }, (__, across) => ({ down, across })).filter(
      ({ across }) => !showsSame(before[down]?.[across], after[down]?.[across]),
    );
  }).flat();
  if (moved.length === 0) return [];
  const sure = plusMinus();
  return moved.map(({ down, across }) => {
    const known = sure?.[down]?.[across];
    return {
      sheet,
      address: cellAt(address, down, across),
      by,
      before: before[down]?.[across],
      after: after[down]?.[across],
      plusMinus: typeof known === "number" ? known : undefined,
    };
  });
}
