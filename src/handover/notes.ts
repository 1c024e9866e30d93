import { cellAddress } from "../cells/a1.js";
import { relativeText } from "../engine/references/relative-text.js";
import { describe } from "../instruments/describe.js";
import { formulaCopy } from "../workbook/sheet/formula-copy.js";
import type { Note } from "../workbook/workbook.js";
import type { OwnCell } from "./own-cells.js";

/** A cell, and what its note says besides the formula, an error and its instruments. */
interface Noted {
  readonly cell: OwnCell;
  readonly says: readonly string[];
}

/** A note, and the run of like formulas down a column that it is for. */
interface Run {
  readonly note: Note;
  last: number;
}

/**
 * What the cells of a copy say. Formulas that are the same but for their row share the note of the first: tens of
 * thousands of notes would make a file that no program opens in reasonable time.
 */
export function notesOf(noted: readonly Noted[]): Note[] {
  const runs: Run[] = [];
  /** The run that a next cell would continue, by that cell. */
  const open = new Map<string, Run>();
  for (const { cell, says } of noted) {
    const { at, sheet, typed, error } = cell;
    const about = [...says, ...cell.instruments.map(describe)];
    const keyAt = (row: number): string =>
      JSON.stringify([at.sheet, at.column, row, copiedText(cell), about]);
    // An error is about its own cell.
    const before = error === undefined ? open.get(keyAt(at.row)) : undefined;
    const text = [typed, ...(error === undefined ? [] : [error]), ...about].join("\n");
    const run = before ?? { note: { sheet, row: at.row, column: at.column, text }, last: at.row };
    run.last = at.row;
    if (!before) runs.push(run);
    if (error === undefined) open.set(keyAt(at.row + 1), run);
  }
  return runs.map(({ note, last }) =>
    last === note.row
      ? note
      : { ...note, text: `${note.text}\nLikewise down to ${cellAddress(last, note.column)}.` },
  );
}

/** Text that copies of a formula have in common. */
const copiedText = ({ typed, at }: OwnCell): string =>
  relativeText(typed, at) ?? formulaCopy(typed, at.row, at.column)(0, 0);
