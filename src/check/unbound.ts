import { areaOf } from "../cells/area.js";
import { positionKey } from "../cells/place.js";
import { arrayUse } from "../formulas/needs-arrays.js";
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

/**
 * Rewrites these formulas, with their values: in the form in which Excel stores a formula with a function of an add-in, a dynamic array
 * even if it gives a single value. One that would then give more than its cell shows stays as it was.
 */
export function repairs(formulas: readonly SeenFormula[], seen: Seen): CellChange[] {
  const shortened = new Set([...seen.cutOff, ...seen.notes.map(({ at }) => at)].map(positionKey));
  return formulas.map(({ at, sheet, stored, typed }) => {
    const { row, column } = at;
    const isSame = !shortened.has(positionKey(at)) && arrayUse(typed.slice(1), seen.own) === "none";
    const form =
      stored.kind === "plain" && isSame
        ? ({ kind: "spill", area: areaOf(at) } as const)
        : { kind: stored.kind };
    const text = boundFormula(stored.text, seen.own);
    const value = seen.valueAt(at.sheet, row, column);
    return { sheet, row, column, value, formula: { ...stored, ...form, text } };
  });
}
