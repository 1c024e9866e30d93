import type { CheckPoint } from "./check-point.js";
import { Refusal } from "../refusal.js";

/** A calibration pair and what the calibration makes of it. */
export interface FittedPair extends CheckPoint {
  /** What the reading means by the instrument as calibrated, in units of `true`. */
  readonly fitted: number;
  /** true − fitted. */
  readonly residual: number;
}

/** Something that a brewer should know before a calibration is used. It refuses nothing. */
export type CalibrationWarning =
  /** So far from the rest that it may be misread. It was not left out. `pair` counts from 0. */
  | { readonly kind: "outlier"; readonly pair: number }
  /** Too few pairs to know how well they agree. */
  | { readonly kind: "few-pairs"; readonly given: number; readonly wanted: number }
  /** One shift leaves more than readings scatter: the scale may be uneven, which check points would follow. */
  | { readonly kind: "uneven"; readonly residual: number; readonly allowed: number }
  /** Readings scatter more than they should. */
  | { readonly kind: "scattered"; readonly standardDeviation: number; readonly allowed: number }
  /** The pairs lie so close together that a line through them tilts with every slip of reading. */
  | { readonly kind: "short-span"; readonly span: number; readonly wanted: number }
  /** A wort so thin that a slip of reading weighs much. `pair` counts from 0. */
  | { readonly kind: "weak-wort"; readonly pair: number; readonly wanted: number };

/** What came of calibrating: every pair in the order given, the numbers sought, and what to look at. */
export interface CalibrationFit<Numbers> {
  readonly pairs: readonly FittedPair[];
  readonly numbers: Numbers;
  readonly warnings: readonly CalibrationWarning[];
}

export function fittedPair(reading: number, trueValue: number, fitted: number): FittedPair {
  return { reading, true: trueValue, fitted, residual: trueValue - fitted };
}

/** Fewer pairs than this leave unsaid how well they agree. */
const ENOUGH_PAIRS = 3;

/** @throws Refusal if there is no pair at all */
export function fewPairs(given: number): CalibrationWarning[] {
  if (given === 0) throw new Refusal({ kind: "too-few-pairs", given, needed: 1 });
  return given < ENOUGH_PAIRS ? [{ kind: "few-pairs", given, wanted: ENOUGH_PAIRS }] : [];
}

export const outlier = (pair: number): CalibrationWarning => ({ kind: "outlier", pair });

/**
 * Says of each refusal which pair it is about.
 *
 * @throws Refusal "in-pair", which holds the refusal that `of` met
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
