import { type Position, positionKey } from "../cells/place.js";
import type { CellFunctions } from "../engine/ours/cell-functions.js";
import { namedTexts, type TextCell } from "../engine/references/named-texts.js";
import type { Recalculation } from "../engine/recalculation.js";
import { callsOurs, typedFormula } from "../formulas/formula-text.js";
import { nameKey } from "../instruments/name.js";
import type { Profile } from "../instruments/schema.js";
import type { InstrumentSet } from "../instruments/set.js";
import type { CellValue, Formula, WorkbookModel } from "../workbook/model.js";

/** A workbook to hand over, just recalculated. */
export interface BookToHandOver {
  readonly model: WorkbookModel;
  readonly result: Recalculation;
  readonly functions: CellFunctions;
  readonly instruments: InstrumentSet;
  /** The date of handing over, as text. The host has the clock. */
  readonly date: string;
  readonly onProgress?: (done: number, total: number) => void;
}

/** A cell whose formula calls one of our functions. */
export interface OwnCell {
  readonly at: Position;
  readonly sheet: string;
  readonly formula: Formula;
  /** The formula as a user would type it, with "=". */
  readonly typed: string;
  /** After recalculation. */
  readonly value: CellValue;
  /** Why it shows an error, if it does. */
  readonly error: string | undefined;
  /** Instruments that it names. */
  readonly instruments: readonly Profile[];
}

/** All cells with our formulas, in reading order. */
export function ownCells({ model, result, functions, instruments }: BookToHandOver): OwnCell[] {
  const { book } = result;
  const profiles = new Map(instruments.instruments.map((profile) => [nameKey(profile.name), profile]));
  const naming = namingCells(model, profiles);
  const fresh = new Map(result.changes.map((change) => [positionKey(change), change]));
  const failed = new Map(result.errors.map((each) => [positionKey(each), each]));
  return model.sheets.flatMap(({ name: sheet, cells }, index) =>
    cells.flatMap(({ row, column, value, formula }) => {
      if (!formula || !callsOurs(formula.text, functions)) return [];
      const key = positionKey({ sheet, row, column });
      const error = failed.get(key);
      const at = { sheet: index, row, column };
      const texts = namedTexts(formula.text, at, book, functions, naming);
      return {
        at,
        sheet,
        formula: fresh.get(key)?.formula ?? formula,
        typed: `=${typedFormula(formula.text, functions)}`,
        value: fresh.has(key) ? (fresh.get(key)?.value ?? null) : value,
        error: error && `${error.code} ${error.message}`,
        instruments: [...new Set(texts.map(nameKey))].flatMap((name) => profiles.get(name) ?? []),
      };
    }),
  );
}

/** Cells that hold the name of an instrument. */
function namingCells(model: WorkbookModel, profiles: ReadonlyMap<string, Profile>): TextCell[] {
  return model.sheets.flatMap(({ cells }, sheet) =>
    cells.flatMap(({ row, column, value }) =>
      typeof value === "string" && profiles.has(nameKey(value)) ? [{ sheet, row, column, text: value }] : [],
    ),
  );
}
