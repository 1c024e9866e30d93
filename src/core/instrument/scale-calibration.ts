import type { CheckPoint } from "./check-point.js";
import {
  fewPairs,
  fittedPair,
  outlier,
  type CalibrationFit,
  type CalibrationWarning,
} from "./calibration-fit.js";
import { calibrationSlope, shiftAt } from "./calibration.js";
import {
  byReading,
  checkGroups,
  checkPairs,
  contradiction,
  limits,
  type GraduatedScale,
  type Placed,
} from "./check-reading.js";
import { median, scaledMad, outliers } from "../numeric/robust.js";

/** Result of checking a scale: the check points to keep in its profile. */
export interface CheckedScale {
  readonly checks: readonly CheckPoint[];
}

/** A scale that has slipped as a whole. */
export interface SlippedScale extends CheckedScale {
  /** Correction for every reading, added beside the meniscus allowance, in units of the scale. */
  readonly shift: number;
  /** Standard deviation of the shifts of the pairs; undefined for a single pair. */
  readonly standardDeviation: number | undefined;
}

/**
 * A single shift for the whole scale, such as a paper scale that has slipped: the median of the pairs' shifts, so that
 * a misread one does not move it.
 *
 * @param points check readings at the calibration temperature, see `checkPoint`
 * @throws Refusal without pairs, for a reading off the scale, for a pair that differs by more than 0.015 SG (4 °P), and
 *   for two true values of one reading that differ by more than 0.002 SG (0.5 °P)
 */
export function slippedScale(
  points: readonly CheckPoint[],
  graduated: GraduatedScale,
): CalibrationFit<SlippedScale> {
  const few = fewPairs(points.length);
  checkPairs(points, graduated);
  const { meniscusAllowance, scale } = graduated;
  const { maxResidual: even, minScatter: finest } = limits[scale];
  const shifts = points.map((point) => point.true - point.reading - meniscusAllowance);
  const shift = median(shifts);
  const corrected = (reading: number): number => reading + meniscusAllowance + shift;
  const pairs = points.map((point) => fittedPair(point.reading, point.true, corrected(point.reading)));
  const out = outliers(shifts, 1, finest);
  const left = Math.max(...pairs.map(({ residual }, i) => (out.includes(i) ? 0 : Math.abs(residual))));
  const uneven: CalibrationWarning[] =
    left > even && new Set(points.map(({ reading }) => reading)).size > 1
      ? [{ kind: "uneven", residual: left, allowed: even }]
      : [];
  const middle = median(points.map(({ reading }) => reading));
  return {
    pairs,
    numbers: {
      shift,
      standardDeviation: points.length > 1 ? scaledMad(shifts) : undefined,
      checks: [{ reading: middle, true: corrected(middle) }],
    },
    warnings: [...few, ...out.map(outlier), ...uneven],
  };
}

/** Merges pairs at the same mark into one check point. */
function middleOf(group: readonly Placed[], { meniscusAllowance }: GraduatedScale): CheckPoint {
  const reading = median(group.map((point) => point.reading));
  return { reading, true: reading + meniscusAllowance + median(group.map(({ shift }) => shift)) };
}

/**
 * Check points for a scale whose error varies along its length. Pairs at the same mark are merged into one point, by
 * their median.
 *
 * @param points check readings at the calibration temperature, see `checkPoint`
 * @throws Refusal as `slippedScale` does, if shifts at the same mark differ by more than 0.002 SG (0.5 °P), and if two
 *   neighbouring points would stretch the scale more than twofold
 */
export function unevenScale(
  points: readonly CheckPoint[],
  graduated: GraduatedScale,
): CalibrationFit<CheckedScale> {
  const few = fewPairs(points.length);
  checkPairs(points, graduated);
  const { meniscusAllowance, scale } = graduated;
  const groups = byReading(points, graduated, limits[scale].sameMark);
  checkGroups(groups, scale);
  const checks = groups.map((group) => middleOf(group, graduated));
  checks.forEach((upper, i) => {
    const [lower, below, above] = [checks[i - 1], groups[i - 1]?.[0], groups[i]?.[0]];
    if (!lower || !below || !above) return;
    const stretch = (upper.true - lower.true) / (upper.reading - lower.reading);
    if (!(stretch >= calibrationSlope.min && stretch <= calibrationSlope.max))
      throw contradiction(below, above, scale);
  });
  return {
    pairs: points.map((point) => {
      const shift = shiftAt(point.reading, checks, meniscusAllowance);
      return fittedPair(point.reading, point.true, point.reading + meniscusAllowance + shift);
    }),
    numbers: { checks },
    warnings: few,
  };
}
