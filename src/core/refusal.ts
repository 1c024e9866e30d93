import type { CheckPoint } from "./instrument/check-point.js";

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
export function checkRange(range: Range, given: number): void {
  if (!(given >= range.min && given <= range.max)) throw new Refusal({ kind: "out-of-range", range, given });
}

/** Why the core gave no number. Gravities are SG, temperatures °C, extracts °P. */
export type Reason =
  /** Outside what the source covers. */
  | { readonly kind: "out-of-range"; readonly range: Range; readonly given: number }
  /** The result of a correction lies outside what the source covers, though the reading itself does not. */
  | { readonly kind: "no-solution"; readonly range: Range; readonly sought: string }
  /** A final gravity above the original one. */
  | { readonly kind: "final-above-original"; readonly original: number; readonly final: number }
  /** More fermented away than the original gravity held. */
  | { readonly kind: "final-too-low"; readonly original: number; readonly final: number }
  /** A beer that has already fermented further than it was expected to. */
  | { readonly kind: "below-expected"; readonly gravity: number; readonly expected: number }
  /** A refractometer shows more than the unfermented wort would. */
  | { readonly kind: "refraction-above-original"; readonly reading: number; readonly original: number }
  /** Hydrometer and refractometer cannot both be right for any beer. */
  | { readonly kind: "readings-disagree"; readonly gravity: number; readonly reading: number }
  /** The UK duty table stops here. */
  | { readonly kind: "duty-table-ends"; readonly lost: number; readonly most: number }
  /** More extract in the wort than the grist holds. */
  | { readonly kind: "more-than-grist"; readonly efficiency: number; readonly most: number }
  /** A target on the wrong side of where the wort is. */
  | { readonly kind: "target-not-above"; readonly gravity: number; readonly target: number }
  | { readonly kind: "target-not-below"; readonly gravity: number; readonly target: number }
  | { readonly kind: "volume-grows"; readonly volume: number; readonly end: number }
  /** An addition that is thinner than the target cannot reach it. */
  | { readonly kind: "addition-too-weak"; readonly addition: number; readonly target: number }
  /** One of several calibration pairs is refused. `pair` counts from 0. */
  | { readonly kind: "in-pair"; readonly pair: number; readonly because: Reason }
  | { readonly kind: "too-few-pairs"; readonly given: number; readonly needed: number }
  /** A reading that no slipped scale shows, in units of the scale. */
  | { readonly kind: "too-far-off"; readonly pair: CheckPoint; readonly most: number; readonly unit: string }
  /** Two pairs that no scale gives both. `place` counts from 0. */
  | {
      readonly kind: "pairs-contradict";
      readonly one: CheckPoint & { readonly place: number };
      readonly other: CheckPoint & { readonly place: number };
      readonly unit: string;
    }
  /** A line needs two different readings. */
  | { readonly kind: "one-reading"; readonly reading: number }
  /** A time before or after all readings of a log. Days. */
  | { readonly kind: "outside-log"; readonly at: number; readonly first: number; readonly last: number }
  | { readonly kind: "too-few-readings"; readonly given: number; readonly needed: number }
  /** A log that begins below the gravity that it is to have reached. */
  | { readonly kind: "below-from-the-start"; readonly begins: number; readonly target: number }
  /** Why a log carries no forecast. Falls are points. */
  | { readonly kind: "no-fall-yet"; readonly fall: number; readonly needed: number }
  | { readonly kind: "no-curve" }
  | { readonly kind: "not-slowing" }
  | {
      readonly kind: "levels-off-above";
      readonly final: number;
      readonly within: number;
      readonly target: number;
    }
  /** Days after the last reading, NaN where the curve never gets there, and days since the log or its last sugar. */
  | { readonly kind: "forecast-vague"; readonly days: number; readonly length: number };

/** Thrown instead of an answer that could not be trusted. Carries data; its sentence is made where it is shown. */
export class Refusal extends Error {
  override readonly name = "Refusal";

  constructor(readonly reason: Reason) {
    super(reason.kind);
  }
}
