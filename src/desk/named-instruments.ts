import type { Book } from "../engine/book.js";
import { follow, type Area, type Names, type Place, type Target } from "../formulas/cells.js";
import { nameSources } from "../formulas/name-source.js";
import type { OwnFunctions } from "../formulas/own-calls.js";
import { fold } from "../formulas/sheet-name.js";
import type { WorkbookModel } from "../workbook/model.js";

/** The names that formulas of a workbook can use. */
export function namesOf(model: WorkbookModel, book: Book): Names {
  return {
    sheet: (name) => book.sheetNames[book.sheetNamed(name) ?? -1],
    defined: (name, sheet) => {
      const definition = book.definedName(name, book.sheetNamed(sheet) ?? -1);
      return definition && `=${definition.refersTo}`;
    },
    table: (name) => book.table(name),
    tableAt: ({ sheet, row, column }) =>
      model.tables.find(
        (table) =>
          fold(table.sheet) === fold(sheet) &&
          row >= table.area.top &&
          row <= table.area.bottom &&
          column >= table.area.left &&
          column <= table.area.right,
      ),
  };
}

/** Where a formula takes the names of instruments from, followed to the cells. */
export interface NamedInstruments {
  /** Names in the formula's own text, or in a defined name. */
  readonly written: readonly string[];
  readonly areas: readonly Area[];
  /** Some name is worked out, or comes from where nobody can look from here. */
  readonly any: boolean;
}

/** @param formula with "=" */
export function namedInstruments(
  formula: string,
  at: Place,
  names: Names,
  functions: OwnFunctions,
): NamedInstruments {
  const { written, references, computed } = nameSources(formula, functions);
  const targets: Target[] = references.map((reference) => follow(reference, at, names));
  return {
    written: [
      ...written.map(({ text }) => text),
      ...targets.flatMap((target) => (target && "text" in target ? [target.text] : [])),
    ],
    areas: targets.flatMap((target) => (target && !("text" in target) ? [target] : [])),
    any: computed || targets.includes(undefined),
  };
}
