import type { CheckPoint } from "./instrument/check-point.js";

/** Range of a quantity covered by a source, both ends included. */
export interface Range {
  /** Name of the quantity, as a sentence would use it. */
  readonly of: string;
  readonly min: number;
  readonly max: number;
  /** Unit as printed after a number: "°C", "°P", "" for a ratio. */
  readonly unit: string;
}

/**
 * Refuses a value outside its range.
 *
 * @throws Refusal "out-of-range", also for NaN
 */
export function checkRange(range: Range, given: number): void {
  if (!(given >= range.min && given <= range.max)) throw new Refusal({ kind: "out-of-range", range, given });
}

/** Why the core gave no number. Gravities are SG, temperatures °C, extracts °P. */
export type Reason =
  /** Outside the range covered by the source. */
  | { readonly kind: "out-of-range"; readonly range: Range; readonly given: number }
  /** The corrected value would be outside the range covered by the source, though the reading is within it. */
  | { readonly kind: "no-solution"; readonly range: Range; readonly sought: string }
  /** A final gravity above the original one. */
  | { readonly kind: "final-above-original"; readonly original: number; readonly final: number }
  /** More extract fermented than the original gravity had. */
  | { readonly kind: "final-too-low"; readonly original: number; readonly final: number }
  /** The beer has already fermented further than expected. */
  | { readonly kind: "below-expected"; readonly gravity: number; readonly expected: number }
  /** The refractometer shows more than the unfermented wort would. */
  | { readonly kind: "refraction-above-original"; readonly reading: number; readonly original: number }
  /** No beer gives both the hydrometer and the refractometer reading. */
  | { readonly kind: "readings-disagree"; readonly gravity: number; readonly reading: number }
  /** The UK duty table ends here. */
  | { readonly kind: "duty-table-ends"; readonly lost: number; readonly most: number }
  /** More extract in the wort than the grist holds. */
  | { readonly kind: "more-than-grist"; readonly efficiency: number; readonly most: number }
  /** A target on the wrong side of the wort. */
  | { readonly kind: "target-not-above"; readonly gravity: number; readonly target: number }
  | { readonly kind: "target-not-below"; readonly gravity: number; readonly target: number }
  | { readonly kind: "volume-grows"; readonly volume: number; readonly end: number }
  /** The addition is thinner than the target. */
  | { readonly kind: "addition-too-weak"; readonly addition: number; readonly target: number }
  /** One of several calibration pairs is refused. `pair` counts from 0. */
  | { readonly kind: "in-pair"; readonly pair: number; readonly because: Reason }
  | { readonly kind: "too-few-pairs"; readonly given: number; readonly needed: number }
  /** A reading that no slipped scale would give, in units of the scale. */
  | { readonly kind: "too-far-off"; readonly pair: CheckPoint; readonly most: number; readonly unit: string }
  /** Two pairs that cannot both belong to one scale. `place` counts from 0. */
  | {
      readonly kind: "pairs-contradict";
      readonly one: CheckPoint & { readonly place: number };
      readonly other: CheckPoint & { readonly place: number };
      readonly unit: string;
    }
  /** A line needs two different readings. */
  | { readonly kind: "one-reading"; readonly reading: number }
  /** A time before the first or after the last reading of a log. Days. */
  | { readonly kind: "outside-log"; readonly at: number; readonly first: number; readonly last: number }
  | { readonly kind: "too-few-readings"; readonly given: number; readonly needed: number }
  /** The log begins below the target gravity. */
  | { readonly kind: "below-from-the-start"; readonly begins: number; readonly target: number }
  /** Why a log cannot carry a forecast. Falls are points. */
  | { readonly kind: "no-fall-yet"; readonly fall: number; readonly needed: number }
  | { readonly kind: "no-curve" }
  | { readonly kind: "not-slowing" }
  | {
      readonly kind: "levels-off-above";
      readonly final: number;
      readonly within: number;
      readonly target: number;
    }
  /**
   * Days after the last reading, NaN if the curve never gets there, and days since the log or its last addition of
   * sugar began.
   */
  | { readonly kind: "forecast-vague"; readonly days: number; readonly length: number };

/**
 * Thrown instead of returning a number that cannot be trusted. It carries data; the sentence is made where it is shown.
 */
export class Refusal extends Error {
  override readonly name = "Refusal";

  constructor(readonly reason: Reason) {
    super(reason.kind);
  }
}
