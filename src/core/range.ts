import { Refusal } from "./refusal.js";

/** The span of a quantity that a source covers, both ends included. */
export interface Range {
  /** What the quantity is, as a sentence would call it. */
  readonly of: string;
  readonly min: number;
  readonly max: number;
  /** As printed after a number: "°C", "°P", "" for a ratio. */
  readonly unit: string;
}

/**
 * Refuses a value outside its range.
 *
 * @throws Refusal "out-of-range", also for NaN
 */
export function check(range: Range, given: number): void {
  if (!(given >= range.min && given <= range.max)) throw new Refusal({ kind: "out-of-range", range, given });
}
