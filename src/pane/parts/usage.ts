import type { CellAddress } from "../../cells/place.js";
import { nameKey } from "../../instruments/name.js";
import type { OurFormula } from "../ports/formulas-port.js";

export const addressKey = ({ sheet, address }: CellAddress): string => `${sheet}\n${address}`;

/** Formulas that name an instrument. */
export function usersOf(formulas: readonly OurFormula[], name: string): OurFormula[] {
  const key = nameKey(name);
  return formulas.filter((formula) => formula.instruments.some((used) => nameKey(used) === key));
}

/** Formulas whose results may change if these instruments change. */
export function affectedBy(formulas: readonly OurFormula[], names: readonly string[]): OurFormula[] {
  const keys = new Set(names.map(nameKey));
  return formulas.filter(
    (formula) => formula.anyInstrument || formula.instruments.some((used) => keys.has(nameKey(used))),
  );
}

export const formulaCount = (n: number): string => `${n} ${n === 1 ? "formula" : "formulas"}`;
