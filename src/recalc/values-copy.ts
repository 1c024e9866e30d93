import { Book } from "../engine/book.js";
import type { CellFunctions } from "../engine/cell-functions.js";
import { callsOurs, typedFormula } from "../formulas/formula-text.js";
import { namedTexts, type TextCell } from "../engine/named-texts.js";
import type { Recalculation } from "../engine/recalculation.js";
import { describe } from "../instruments/describe.js";
import { nameKey } from "../instruments/name.js";
import type { InstrumentSet } from "../instruments/set.js";
import type { CellChange, WorkbookModel } from "../workbook/model.js";
import type { Note } from "../workbook/workbook.js";

/** A workbook for someone without the add-in: what changes in it, and the notes that say where values came from. */
export interface ValuesCopy {
  readonly changes: readonly CellChange[];
  readonly notes: readonly Note[];
}

const keyOf = (sheet: string, row: number, column: number): string => `${sheet}\n${row}\n${column}`;

/** Replaces our formulas by their values. Formulas of others stay: they go on calculating with these. */
export function valuesCopy(
  model: WorkbookModel,
  { changes, errors }: Recalculation,
  functions: CellFunctions,
  { instruments }: InstrumentSet,
): ValuesCopy {
  const book = new Book(model);
  const lines = new Map(instruments.map((profile) => [nameKey(profile.name), describe(profile)]));
  const naming = namingCells(model, lines);
  const all = new Map(changes.map((change) => [keyOf(change.sheet, change.row, change.column), change]));
  const failed = new Map(errors.map((each) => [keyOf(each.sheet, each.row, each.column), each]));
  const notes: Note[] = [];
  for (const [index, sheet] of model.sheets.entries())
    for (const { row, column, value, formula } of sheet.cells) {
      if (!formula || !callsOurs(formula.text, functions)) continue;
      const key = keyOf(sheet.name, row, column);
      const error = failed.get(key);
      const texts = namedTexts(formula.text, { sheet: index, row, column }, book, functions, naming);
      const used = [...new Set(texts.map(nameKey))].flatMap((name) => lines.get(name) ?? []);
      const text = [
        `=${typedFormula(formula.text, functions)}`,
        ...(error ? [`${error.code} ${error.message}`] : []),
        ...used,
      ].join("\n");
      const place = { sheet: sheet.name, row, column };
      notes.push({ ...place, text });
      all.set(key, { ...place, value: all.get(key)?.value ?? value, formula: null });
    }
  return { changes: [...all.values()], notes };
}

/** Cells that hold the name of an instrument. */
function namingCells(model: WorkbookModel, lines: ReadonlyMap<string, string>): TextCell[] {
  return model.sheets.flatMap(({ cells }, sheet) =>
    cells.flatMap(({ row, column, value }) =>
      typeof value === "string" && lines.has(nameKey(value)) ? [{ sheet, row, column, text: value }] : [],
    ),
  );
}
