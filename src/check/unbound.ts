import { boundFormula, isBound } from "../formulas/formula-text.js";
import type { CellChange, CellValue } from "../workbook/model.js";
import type { Spotted } from "./finding.js";
import type { Seen, SeenFormula } from "./own-calls-seen.js";

const isName = (value: CellValue): boolean =>
  typeof value === "object" && value !== null && value.error === "#NAME?";

/** Formulas typed or changed without the add-in: their spelling, or their stored value, shows it. */
export const unboundFormulas = ({ formulas, own, valueAt }: Seen): SeenFormula[] =>
  formulas.filter(({ stored, storedValue, at }) => {
    if (!isBound(stored.text, own)) return true;
    // If it is #NAME? after recalculation too, it calls something else that is missing.
    return isName(storedValue) && !isName(valueAt(at.sheet, at.row, at.column));
  });

export const unbound = (formulas: readonly SeenFormula[]): Spotted[] =>
  formulas.map(({ at, typed }) => ({ kind: "unbound", at, about: "", value: typed }));

/** Rewrites these formulas, with their values. */
export const repairs = (formulas: readonly SeenFormula[], seen: Seen): CellChange[] =>
  formulas.map(({ at, sheet, stored }) => ({
    sheet,
    row: at.row,
    column: at.column,
    value: seen.valueAt(at.sheet, at.row, at.column),
    formula: { ...stored, text: boundFormula(stored.text, seen.own) },
  }));
