import type { FittedPair, CalibrationWarning } from "../../core/instrument/calibration-fit.js";
import type { Profile } from "../../instruments/schema.js";
import type { ChartData } from "./calibration-chart.js";
import type { Column, Pair } from "./calibration-pairs.js";
import type { Figures } from "./calibration-words.js";

/** Result of a calibration that is not in the workbook yet. */
export interface CalibrationFound {
  /** What the calibrated instrument will do, most important first. */
  readonly says: readonly string[];
  readonly pairs: readonly FittedPair[];
  readonly warnings: readonly CalibrationWarning[];
  /** Number format in warnings. */
  readonly warned: Figures;
  /** Number format in the table. */
  readonly figures: Figures & { readonly readingDecimals: number; readonly truth: string };
  readonly chart: ChartData;
  /** The instrument as calibrated. */
  readonly profile: Profile;
}

/** A way to calibrate an instrument. */
export interface CalibrationMethod {
  readonly key: string;
  readonly label: string;
  /** Instructions for the user. */
  readonly says: string;
  /** Columns of a pair. */
  readonly columns: readonly Column[];
  /** What this method calls the true strength. */
  readonly strengthLabel: string;
  /** Whether sugar solutions can be used for it. */
  readonly sugar: boolean;
  /** @throws Refusal for pairs that make no sense; its `pair` counts from 0 */
  readonly find: (pairs: readonly Pair[]) => CalibrationFound;
}

/** Rounds what a profile stores; more decimals would mean nothing. */
export const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** Decimals of marks: a tenth of what can be read, and what a profile stores. */
export const markDecimals = { SG: 4, P: 2, BX: 2 } as const;
export const keptDecimals = { SG: 6, P: 4, BX: 4 } as const;
export const scaleUnit = { SG: "SG", P: "°P", BX: "°Bx" } as const;
