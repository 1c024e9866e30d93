import type { CheckPoint } from "./check-point.js";
import { checkRange, type Range, Refusal } from "../refusal.js";
import { valueAt } from "../numeric/value-at.js";

/**
 * Correction of a scale at a reading: as at the check points, straight in between, and outside them as at the nearest.
 * A paper scale that has slipped shows one and the same correction everywhere, so a single point is enough for it.
 *
 * @param allowance added to check readings as it is to all others, before they are compared
 */
export function shiftAt(reading: number, checks: readonly CheckPoint[], allowance = 0): number {
  const sorted = checks.length > 1 ? [...checks].sort((a, b) => a.reading - b.reading) : checks;
  const upper = sorted.find((point) => point.reading >= reading);
  const lower = sorted.findLast((point) => point.reading <= reading);
  const nearest = upper ?? lower;
  if (!nearest) return 0; // no check points at all
  const at = (point: CheckPoint) => point.true - point.reading - allowance;
  if (!upper || !lower || upper.reading === lower.reading) return at(nearest);
  const share = (reading - lower.reading) / (upper.reading - lower.reading);
  return at(lower) + share * (at(upper) - at(lower));
}

/** Lowest and highest reading of check points. */
export function spanOf(points: readonly CheckPoint[]): readonly [from: number, to: number] {
  const readings = points.map(({ reading }) => reading);
  return [Math.min(...readings), Math.max(...readings)];
}

/** A straight calibration: true = offset + slope·reading. */
export interface CalibrationLine {
  readonly offset: number;
  readonly slope: number;
}

/** A slope beyond this says that pairs were mixed up, not that an instrument reads so. */
export const calibrationSlope: Range = { of: "slope of the calibration line", min: 0.5, max: 2, unit: "" };

/**
 * Least-squares line through calibration pairs. One pair gives a shift; none, the instrument's own reading.
 *
 * @throws Refusal if all readings are the same, or the pairs give a slope outside 0.5 to 2
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
