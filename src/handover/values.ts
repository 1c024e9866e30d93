import { positionKey, type SheetPlace } from "../cells/place.js";
import type { CellChange } from "../workbook/model.js";
import type { NewSheet } from "../workbook/sheet/new-sheet.js";
import type { Note } from "../workbook/workbook.js";
import { ownCells, type BookToHandOver, type OwnCell } from "./own-cells.js";
import { notesOf } from "./notes.js";
import { recordSheet } from "./record-sheet.js";

/** A workbook for someone without the add-in: its changes, and the notes that say where the numbers come from. */
export interface HandedOver {
  readonly changes: readonly CellChange[];
  readonly notes: readonly Note[];
  readonly sheets: readonly NewSheet[];
  readonly report: HandOverReport;
}

/** Report for the person handing over. */
export interface HandOverReport {
  /** Cells with our formulas. */
  readonly formulas: number;
  /** Those that still calculate without the add-in. */
  readonly live: number;
  /** Those that became fixed numbers. */
  readonly values: number;
  /** Cells that should have stayed live but did not, each with the reason. */
  readonly notLive: readonly (SheetPlace & { readonly why: string })[];
  /** Cells of ours that show an error. */
  readonly errors: readonly SheetPlace[];
}

const SAYS =
  "Values only: every formula that needed the Gylesheet add-in is replaced by its value. A note on each such cell has the " +
  "formula and the instruments. Other formulas go on calculating with these values.";

/** Replaces our formulas by their values. Other formulas stay and keep calculating with these. */
export function asValues(given: BookToHandOver): HandedOver {
  const cells = ownCells(given);
  return putTogether(
    given,
    cells,
    SAYS,
    cells.map((cell) => ({ cell, change: asValue(cell), says: [], isLive: false })),
  );
}

/** Replacement of one of our cells, and what its note says besides the formula. */
export interface Replaced {
  readonly cell: OwnCell;
  readonly change: CellChange;
  /** For other cells that its formula filled. */
  readonly more?: readonly CellChange[];
  readonly says: readonly string[];
  readonly isLive: boolean;
  /** Why it is a value although it should have been live. */
  readonly notLive?: string;
}

/** The cell with its value instead of its formula. */
export function asValue({ sheet, at: { row, column }, value }: OwnCell): CellChange {
  return { sheet, row, column, value, formula: null };
}

/** Combines the replacements, everything else that the recalculation changed, the notes, and the sheet about it all. */
export function putTogether(
  given: BookToHandOver,
  cells: readonly OwnCell[],
  says: string,
  replaced: readonly Replaced[],
): HandedOver {
  const changes = new Map(given.result.changes.map((change) => [positionKey(change), change]));
  for (const { change, more = [] } of replaced)
    for (const each of [change, ...more]) changes.set(positionKey(each), each);
  return {
    changes: [...changes.values()],
    notes: notesOf(replaced),
    sheets: cells.length === 0 ? [] : [recordSheet(given, cells, says)],
    report: reportOf(cells, replaced),
  };
}

/** @param replaced empty if formulas stay as they are */
export function reportOf(cells: readonly OwnCell[], replaced: readonly Replaced[]): HandOverReport {
  return {
    formulas: cells.length,
    live: replaced.filter(({ isLive }) => isLive).length,
    values: replaced.filter(({ isLive }) => !isLive).length,
    notLive: replaced.flatMap(({ cell, notLive: why }) =>
      why === undefined ? [] : [{ ...placeOf(cell), why }],
    ),
    errors: cells.filter(({ error }) => error !== undefined).map(placeOf),
  };
}

const placeOf = ({ sheet, at: { row, column } }: OwnCell): SheetPlace => ({ sheet, row, column });
