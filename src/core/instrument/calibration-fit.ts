import type { CheckPoint } from "./check-point.js";
import { Refusal } from "../refusal.js";

/** A calibration pair and how the calibration fits it. */
export interface FittedPair extends CheckPoint {
  /** Calibrated value of the reading, in units of `true`. */
  readonly fitted: number;
  /** true − fitted. */
  readonly residual: number;
}

/** Something a brewer should know before using a calibration. It does not prevent its use. */
export type CalibrationWarning =
  /** An outlier, perhaps misread, but still included. `pair` counts from 0. */
  | { readonly kind: "outlier"; readonly pair: number }
  /** Too few pairs to tell how well they agree. */
  | { readonly kind: "few-pairs"; readonly given: number; readonly wanted: number }
  /**
   * A single shift leaves larger residuals than readings scatter: the scale may be uneven, which check points would
   * follow.
   */
  | { readonly kind: "uneven"; readonly residual: number; readonly allowed: number }
  /** Readings scatter more than they should. */
  | { readonly kind: "scattered"; readonly standardDeviation: number; readonly allowed: number }
  /** The pairs lie so close together that any misreading tilts the line through them. */
  | { readonly kind: "short-span"; readonly span: number; readonly wanted: number }
  /** A wort so thin that any misreading weighs heavily. `pair` counts from 0. */
  | { readonly kind: "weak-wort"; readonly pair: number; readonly wanted: number };

/** Result of a calibration: every pair in the order given, the numbers found, and warnings. */
export interface CalibrationFit<Numbers> {
  readonly pairs: readonly FittedPair[];
  readonly numbers: Numbers;
  readonly warnings: readonly CalibrationWarning[];
}

export function fittedPair(reading: number, trueValue: number, fitted: number): FittedPair {
  return { reading, true: trueValue, fitted, residual: trueValue - fitted };
}

/** With fewer pairs than this, nobody can tell how well they agree. */
const ENOUGH_PAIRS = 3;

/** @throws Refusal if there are no pairs at all */
export function fewPairs(given: number): CalibrationWarning[] {
  if (given === 0) throw new Refusal({ kind: "too-few-pairs", given, needed: 1 });
  return given < ENOUGH_PAIRS ? [{ kind: "few-pairs", given, wanted: ENOUGH_PAIRS }] : [];
}

export const outlier = (pair: number): CalibrationWarning => ({ kind: "outlier", pair });

/**
 * Maps pairs, and adds to a refusal which pair it concerns.
 *
 * @throws Refusal "in-pair", which holds the original reason
 */
export function eachPair<P, R>(pairs: readonly P[], of: (pair: P) => R): R[] {
  return pairs.map((each, pair) => {
    try {
      return of(each);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      throw new Refusal({ kind: "in-pair", pair, because: error.reason });
    }
  });
}
