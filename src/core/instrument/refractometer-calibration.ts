import {
  eachPair,
  fewPairs,
  fittedPair,
  outlier,
  type CalibrationFit,
  type CalibrationWarning,
} from "./calibration-fit.js";
import { extractRange, extractOfGravity, gravityOfExtract } from "../liquid/gravity.js";
import { checkRange, type Range } from "../refusal.js";
import { refractometerCorrection } from "./refractometer-temperature.js";
import {
  brixByRefractometer,
  waterReadingRange,
  wortFactorRange,
  type Refractometer,
} from "./refractometer.js";
import { median, scaledMad, outliers } from "../numeric/robust.js";
import { valueAt } from "../numeric/value-at.js";

/** A refractometer on water. */
export interface RefractometerOnWater {
  /** Reading on water, in units of its scale; referred to 20 °C if it does not compensate. */
  readonly waterReading: number;
  /** Standard deviation of the readings, °Bx; undefined for a single one. */
  readonly standardDeviation: number | undefined;
}

/** One reading of distilled water. */
export interface WaterPair {
  /** As read, in units of its scale. */
  readonly reading: number;
  /** Temperature of the prism, °C, 10 to 30; not needed if the instrument compensates. */
  readonly tC?: number | undefined;
}

// Common practice, no source: half a division of a hand instrument, and two of its divisions.
const MIN_BRIX_SCATTER = 0.05;
const MAX_BRIX_SCATTER = 0.2;

/**
 * Zero reading of a refractometer on distilled water: the median of several readings.
 *
 * @returns pairs with `true` and `fitted` in °Bx
 * @throws Refusal without readings, for readings that cannot be water, and outside 10 to 30 °C
 */
export function waterReadingOf(
  readings: readonly WaterPair[],
  { scale, compensates }: Pick<Refractometer, "scale" | "compensates">,
): CalibrationFit<RefractometerOnWater> {
  const few = fewPairs(readings.length);
  const range = waterReadingRange[scale];
  const brix = eachPair(readings, ({ reading, tC = NaN }) => {
    checkRange(range, reading);
    const toTwenty = compensates ? 0 : refractometerCorrection(0, tC);
    return (scale === "SG" ? extractOfGravity(reading) : reading) + toTwenty;
  });
  const zero = median(brix);
  const waterReading = scale === "SG" ? gravityOfExtract(zero) : zero;
  checkRange(range, waterReading);
  const scatter = scaledMad(brix);
  const scattered: CalibrationWarning[] =
    scatter > MAX_BRIX_SCATTER
      ? [{ kind: "scattered", standardDeviation: scatter, allowed: MAX_BRIX_SCATTER }]
      : [];
  return {
    pairs: readings.map(({ reading }, i) => fittedPair(reading, 0, valueAt(brix, i) - zero)),
    numbers: { waterReading, standardDeviation: readings.length > 1 ? scatter : undefined },
    warnings: [...few, ...outliers(brix, 1, MIN_BRIX_SCATTER).map(outlier), ...scattered],
  };
}

/** One unfermented wort, measured with two instruments. */
export interface WortPair {
  /** By refractometer, as read, in units of its scale. */
  readonly reading: number;
  /** Temperature of the prism, °C; not needed if the instrument compensates. */
  readonly tC?: number | undefined;
  /** By hydrometer, corrected, °P. */
  readonly extract: number;
}

/** Wort correction factor of a refractometer in a brewery. */
export interface FoundFactor {
  readonly factor: number;
  /** Standard deviation of the factors of the pairs; undefined for a single pair. */
  readonly standardDeviation: number | undefined;
  /** °Bx over °P for each pair. */
  readonly ratios: readonly number[];
}

/** Thinner wort tells nothing: half a division of a hand instrument is 5 % of it. */
export const pairExtract: Range = { ...extractRange, of: "extract of the wort", min: 2 };
/** Outside this range a pair was mixed up, even allowing for misreadings in thin wort. */
const pairRatio: Range = { of: "°Bx over °P", min: 0.8, max: 1.25, unit: "" };
// Common practice, no source.
const WEAK_WORT = 5; // °P
const MIN_RATIO_SCATTER = 0.005; // half a division in wort of 12 °P
const MAX_RATIO_SCATTER = 0.02;

/**
 * Wort correction factor from pairs: the median of °Bx over °P, so that a misread pair does not move it.
 *
 * @param refractometer with its reading on water; its present factor does not matter
 * @returns pairs with `true` and `fitted` in °P
 * @throws Refusal without pairs, for wort under 2 °P, for a pair whose °Bx over °P is outside 0.8 to 1.25, and for a
 *   factor outside 0.9 to 1.1
 */
export function wortFactorOf(
  pairs: readonly WortPair[],
  refractometer: Omit<Refractometer, "wortFactor">,
): CalibrationFit<FoundFactor> {
  const few = fewPairs(pairs.length);
  const brix = eachPair(pairs, ({ reading, tC, extract }) => {
    checkRange(pairExtract, extract);
    const shown = brixByRefractometer(reading, refractometer, tC);
    checkRange(pairRatio, shown / extract);
    return shown;
  });
  const ratios = pairs.map(({ extract }, i) => valueAt(brix, i) / extract);
  const factor = median(ratios);
  checkRange(wortFactorRange, factor);
  const scatter = scaledMad(ratios);
  const weak = pairs.flatMap(({ extract }, pair): CalibrationWarning[] =>
    extract < WEAK_WORT ? [{ kind: "weak-wort", pair, wanted: WEAK_WORT }] : [],
  );
  const scattered: CalibrationWarning[] =
    scatter > MAX_RATIO_SCATTER
      ? [{ kind: "scattered", standardDeviation: scatter, allowed: MAX_RATIO_SCATTER }]
      : [];
  return {
    pairs: pairs.map(({ reading, extract }, i) => fittedPair(reading, extract, valueAt(brix, i) / factor)),
    numbers: { factor, standardDeviation: pairs.length > 1 ? scatter : undefined, ratios },
    warnings: [...few, ...outliers(ratios, 1, MIN_RATIO_SCATTER).map(outlier), ...weak, ...scattered],
  };
}
