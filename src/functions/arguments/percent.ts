import { extractShare, yieldRanges, type YieldUnit } from "../../core/brewhouse/grist.js";
import { CellError } from "../contract/cell-value.js";
import { shareNotPercent, yieldTooSmall } from "../contract/messages.js";

/**
 * Smaller numbers are shares, not percentages: a cell that shows 75 % holds 0.75, and one that shows 130 % holds 1.3.
 */
export const MIN_PERCENT = 1.5;

const isShare = (value: number): boolean => value > 0 && value < MIN_PERCENT;

/** A percentage. @throws CellError for a share, as held by a cell formatted as a percentage */
export function readPercent(value: number, label: string): number {
  if (isShare(value)) throw new CellError("#VALUE!", shareNotPercent(label, value));
  return value;
}

/**
 * kg of extract per kg, from a yield as the maltster states it. @throws CellError for a share, and for a gravity given
 * as yield
 */
export function readYield(value: number, unit: YieldUnit): number {
  if (unit === "PCT") readPercent(value, "yield");
  else if (isShare(value)) throw new CellError("#VALUE!", yieldTooSmall(value, yieldRanges[unit]));
  return extractShare(value, unit);
}
