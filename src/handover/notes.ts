import { relativeText } from "../engine/references/relative-text.js";
import { describe } from "../instruments/describe.js";
import type { Note } from "../workbook/workbook.js";
import type { Replaced } from "./values.js";

/** A note, and the run of like formulas down a column that it is for. */
interface Run {
  readonly note: Note;
  cells: number;
}

/**
 * What the cells of a copy say. Live formulas that are the same but for their row share the note of the first: tens of
 * thousands of notes would make a file that no program opens in reasonable time.
 */
export function notesOf(replaced: readonly Replaced[]): Note[] {
  const runs: Run[] = [];
  /** The run that a next cell would continue, by that cell. */
  const open = new Map<string, Run>();
  for (const each of replaced) {
    const { at, sheet, typed, error } = each.cell;
    const like = each.isLive && error === undefined ? relativeText(typed, at) : undefined;
    const keyAt = (row: number): string => JSON.stringify([at.sheet, at.column, row, like, each.says]);
    const before = like === undefined ? undefined : open.get(keyAt(at.row));
    const run = before ?? { note: { sheet, row: at.row, column: at.column, text: textOf(each) }, cells: 0 };
    run.cells++;
    if (!before) runs.push(run);
    if (like !== undefined) open.set(keyAt(at.row + 1), run);
  }
  return runs.map(({ note, cells }) =>
    cells === 1 ? note : { ...note, text: `${note.text}\nLikewise the next ${cells - 1} cells down.` },
  );
}

const textOf = ({ cell: { typed, error, instruments }, says }: Replaced): string =>
  [typed, ...(error === undefined ? [] : [error]), ...says, ...instruments.map(describe)].join("\n");
