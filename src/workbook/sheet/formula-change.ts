import { type Area, sameArea } from "../../cells/area.js";
import type { Formula } from "../model.js";

/** The change to a cell's <f> element. */
export type FormulaChange =
  | { readonly to: "keep" }
  /** The same formula fills another area. */
  | { readonly to: "area"; readonly area: Area }
  | { readonly to: "formula"; readonly formula: Formula }
  | { readonly to: "nothing" }
  /** It shared the formula of a cell that changes, so the same formula is written out. */
  | { readonly to: "own"; readonly text: string };

/**
 * The change that a cell needs to get a formula.
 *
 * @param wanted undefined leaves the stored one, null removes it
 */
export function formulaChange(
  stored: Formula | undefined,
  wanted: Formula | null | undefined,
): FormulaChange {
  if (wanted === undefined) return { to: "keep" };
  if (wanted === null) return { to: "nothing" };
  if (stored?.text !== wanted.text || stored.kind !== wanted.kind) return { to: "formula", formula: wanted };
  const { area } = wanted;
  const fills = area === undefined || (stored.area !== undefined && sameArea(stored.area, area));
  return wanted.kind === "plain" || fills ? { to: "keep" } : { to: "area", area };
}
