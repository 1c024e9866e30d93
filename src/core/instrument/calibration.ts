import type { CheckPoint } from "./check-point.js";
import { checkRange, type Range, Refusal } from "../refusal.js";
import { valueAt } from "../numeric/value-at.js";

/**
 * Correction of a scale at a reading: linear between check points, constant beyond the outermost ones. A paper scale
 * that has slipped needs the same correction everywhere, so one point is enough for it.
 *
 * @param allowance meniscus allowance; check readings get it as all others do, before they are compared
 */
export function shiftAt(reading: number, checks: readonly CheckPoint[], allowance = 0): number {
  const sorted = checks.length > 1 ? [...checks].sort((a, b) => a.reading - b.reading) : checks;
  const upper = sorted.find((point) => point.reading >= reading);
  const lower = sorted.findLast((point) => point.reading <= reading);
  const nearest = upper ?? lower;
  if (!nearest) return 0; // no check points
  const at = (point: CheckPoint) => point.true - point.reading - allowance;
  if (!upper || !lower || upper.reading === lower.reading) return at(nearest);
  const share = (reading - lower.reading) / (upper.reading - lower.reading);
  return at(lower) + share * (at(upper) - at(lower));
}

/** Lowest and highest reading of the check points. */
export function spanOf(points: readonly CheckPoint[]): readonly [from: number, to: number] {
  const readings = points.map(({ reading }) => reading);
  return [Math.min(...readings), Math.max(...readings)];
}

/** A linear calibration: true = offset + slope·reading. */
export interface CalibrationLine {
  readonly offset: number;
  readonly slope: number;
}

/** A slope outside this range means that pairs were mixed up; no instrument reads like that. */
export const calibrationSlope: Range = { of: "slope of the calibration line", min: 0.5, max: 2, unit: "" };

/**
 * Least-squares line through calibration pairs. One pair gives a shift; with none, the reading stays as it is.
 *
 * @throws Refusal if all readings are equal, or the slope is outside 0.5 to 2
 */
export function calibrationLine(pairs: readonly CheckPoint[]): CalibrationLine {
  const n = pairs.length;
  if (n === 0) return { offset: 0, slope: 1 };
  const meanReading = pairs.reduce((sum, pair) => sum + pair.reading, 0) / n;
  const meanTrue = pairs.reduce((sum, pair) => sum + pair.true, 0) / n;
  if (n === 1) return { offset: meanTrue - meanReading, slope: 1 };
  const first = valueAt(pairs, 0).reading;
  if (pairs.every(({ reading }) => reading === first))
    throw new Refusal({ kind: "one-reading", reading: first });
  let both = 0;
  let own = 0;
  for (const pair of pairs) {
    both += (pair.reading - meanReading) * (pair.true - meanTrue);
    own += (pair.reading - meanReading) ** 2;
  }
  const slope = both / own;
  checkRange(calibrationSlope, slope);
  return { offset: meanTrue - slope * meanReading, slope };
}
