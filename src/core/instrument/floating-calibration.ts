import type { CheckPoint } from "./check-point.js";
import {
  eachPair,
  fewPairs,
  fittedPair,
  outlier,
  type CalibrationFit,
  type CalibrationWarning,
} from "./calibration-fit.js";
import { calibrationLine, type CalibrationLine } from "./calibration.js";
import { trustedReach, type FloatingHydrometer } from "./floating.js";
import { scaleMarks } from "./hydrometer.js";
import { checkRange } from "../refusal.js";
import { median, outliers } from "../numeric/robust.js";

/** Calibration of a floating hydrometer. */
export interface FloatingCalibration {
  readonly line: CalibrationLine;
  /** Standard deviation of one reading about the line, in units of the scale; needs three pairs. */
  readonly scatter: number | undefined;
}

/** No floating hydrometer logs more finely than this, as a standard deviation. Common practice, no source. */
const minScatter: Record<FloatingHydrometer["scale"], number> = { SG: 0.0005, P: 0.12 };

/**
 * Repeated median line: the median over the pairs of the median slope to all others (Siegel, Biometrika 69 (1982)
 * 242–244), through the median intercept. Up to half of the pairs may be wrong without moving it.
 */
export function repeatedMedianLine(pairs: readonly CheckPoint[]): CalibrationLine {
  const slopes = pairs.map((from) =>
    median(
      pairs.flatMap((to) =>
        to.reading === from.reading ? [] : [(to.true - from.true) / (to.reading - from.reading)],
      ),
    ),
  );
  const slope = median(slopes);
  return { offset: median(pairs.map((pair) => pair.true - slope * pair.reading)), slope };
}

/** @returns undefined for two pairs or fewer, which leave no degrees of freedom */
function scatterAbout(residuals: readonly number[], slope: number): number | undefined {
  const degreesOfFreedom = residuals.length - 2;
  if (degreesOfFreedom < 1) return undefined;
  return Math.sqrt(residuals.reduce((sum, residual) => sum + residual ** 2, 0) / degreesOfFreedom) / slope;
}

/**
 * The least-squares line used by `extractByFloating`, how well the pairs fit it, and the outliers. Those are judged
 * against the robust line, because a misread pair draws the least-squares line towards itself.
 *
 * @throws Refusal without pairs, for marks that no such scale has, and as `calibrationLine` does
 */
export function floatingCalibration({
  scale,
  pairs,
}: FloatingHydrometer): CalibrationFit<FloatingCalibration> {
  const few = fewPairs(pairs.length);
  eachPair(pairs, (pair) => {
    checkRange({ ...scaleMarks[scale], of: "reading" }, pair.reading);
    checkRange({ ...scaleMarks[scale], of: "true value" }, pair.true);
  });
  const line = calibrationLine(pairs);
  const fitted = pairs.map((pair) =>
    fittedPair(pair.reading, pair.true, line.offset + line.slope * pair.reading),
  );
  const agreed = repeatedMedianLine(pairs);
  const away = pairs.map((pair) => pair.true - agreed.offset - agreed.slope * pair.reading);
  const readings = pairs.map((pair) => pair.reading);
  const span = Math.max(...readings) - Math.min(...readings);
  const short: CalibrationWarning[] =
    pairs.length > 1 && span < trustedReach[scale]
      ? [{ kind: "short-span", span, wanted: trustedReach[scale] }]
      : [];
  return {
    pairs: fitted,
    numbers: {
      line,
      scatter: scatterAbout(
        fitted.map(({ residual }) => residual),
        line.slope,
      ),
    },
    warnings: [...few, ...outliers(away, 2, minScatter[scale]).map(outlier), ...short],
  };
}
