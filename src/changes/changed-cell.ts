import { cellAt } from "./cell-name.js";

/** What a cell shows: an error with its message, where that is known. */
export type ShownValue = number | string | boolean | { readonly code: string; readonly message: string };

interface CellPlace {
  readonly sheet: string;
  /** Such as "M4". */
  readonly address: string;
}

/** A cell that shows something else than before, or would. */
export interface ChangedCell extends CellPlace {
  /** The function that gives it; undefined where a formula calculates more than one call. */
  readonly by: string | undefined;
  readonly before: ShownValue | undefined;
  readonly after: ShownValue | undefined;
  /** Expanded uncertainty (k = 2) of what it shows afterwards, in its own units; undefined where nothing says it. */
  readonly plusMinus: number | undefined;
}

/** What a host reads from a cell, be an error its text or its code. */
export function asShown(value: unknown): ShownValue {
  if (typeof value === "object" && value !== null && "code" in value)
    return { code: String(value.code), message: "" };
  if (typeof value === "number" || typeof value === "boolean") return value;
  if (typeof value !== "string") return "";
  return /^#[A-Z/0!?]+$/.test(value) ? { code: value, message: "" } : value;
}

/** Whether a change means something: by more than the result is sure to, by less, or nobody knows. */
export type Weight = "beyond" | "within" | "unknown";

/** Differences that no cell shows. */
const ROUNDING_ERROR = 1e-9;

type Cells = readonly (readonly (ShownValue | undefined)[])[];

export function showsSame(before: ShownValue | undefined, after: ShownValue | undefined): boolean {
  if (typeof before === "number" && typeof after === "number")
    return Math.abs(before - after) <= ROUNDING_ERROR;
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

/**
 * What changed among the cells that a formula fills.
 *
 * @param plusMinus how sure each is: asked only where something changed, since it takes as long as many calculations
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
