import type { FittedPair, CalibrationWarning } from "../../core/instrument/calibration-fit.js";
import type { Profile } from "../../instruments/schema.js";
import type { ChartData } from "./calibration-chart.js";
import type { Column, Pair } from "./calibration-pairs.js";
import type { Figures } from "./calibration-words.js";

/** What came of calibrating, before any of it is in the workbook. */
export interface CalibrationFound {
  /** What the instrument will do, most important first. */
  readonly says: readonly string[];
  readonly pairs: readonly FittedPair[];
  readonly warnings: readonly CalibrationWarning[];
  /** How warnings write their numbers. */
  readonly warned: Figures;
  /** How the table writes its numbers. */
  readonly figures: Figures & { readonly readingDecimals: number; readonly truth: string };
  readonly chart: ChartData;
  /** The instrument as calibrated. */
  readonly profile: Profile;
}

/** One way to calibrate an instrument. */
export interface CalibrationMethod {
  readonly key: string;
  readonly label: string;
  /** How to go about it. */
  readonly says: string;
  /** What a pair consists of. */
  readonly columns: readonly Column[];
  /** What the true strength is called here. */
  readonly strengthLabel: string;
  /** Solutions of sugar serve for it. */
  readonly sugar: boolean;
  /** @throws Refusal for pairs that make no sense; `pair` in it counts from 0 */
  readonly find: (pairs: readonly Pair[]) => CalibrationFound;
}

/** What profiles keep has no more decimals than anybody could mean. */
export const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** Decimals of marks: a tenth of what can be read, and what a profile keeps. */
export const markDecimals = { SG: 4, P: 2, BX: 2 } as const;
export const keptDecimals = { SG: 6, P: 4, BX: 4 } as const;
export const scaleUnit = { SG: "SG", P: "°P", BX: "°Bx" } as const;
