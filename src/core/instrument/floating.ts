import type { CheckPoint } from "./check-point.js";
import { calibrationLine, spanOf } from "./calibration.js";
import { TABLE_114 } from "../liquid/gravity.js";
import { checkRange } from "../refusal.js";
import { extractFrom } from "../liquid/scales.js";
import { PROFILE, step, type Listener } from "../steps.js";

/** A floating digital hydrometer, calibrated against a glass hydrometer. */
export interface FloatingHydrometer {
  readonly scale: "SG" | "P";
  readonly pairs: readonly CheckPoint[];
}

/**
 * How far beyond its outermost calibration pairs a line is trusted, in units of the scale. Common practice, no source.
 */
export const trustedReach: Record<FloatingHydrometer["scale"], number> = { SG: 0.02, P: 5 };

/**
 * Extract by a floating hydrometer, corrected by the line through its calibration pairs.
 *
 * @param reading as logged, in units of its scale
 * @param to listener for the steps
 * @returns °P
 * @throws Refusal more than 0.020 SG (5 °P) beyond the calibration pairs, and outside −4 to 30 °P
 */
export function extractByFloating(
  reading: number,
  { scale, pairs }: FloatingHydrometer,
  to?: Listener,
): number {
  const unit = scale === "P" ? "°P" : "SG";
  if (pairs.length > 0) {
    const [from, end] = spanOf(pairs);
    const [min, max] = [from - trustedReach[scale], end + trustedReach[scale]];
    checkRange({ of: "reading of this floating hydrometer", min, max, unit }, reading);
    if (pairs.length > 1 && (reading < from || reading > end))
      to?.warn({ kind: "outside-pairs", reading, from, to: end });
  } else to?.warn({ kind: "never-calibrated" });
  const line = calibrationLine(pairs);
  step(to, "slope of the calibration line", line.slope, "", PROFILE);
  step(to, "offset of the calibration line", line.offset, scale === "P" ? unit : "", PROFILE);
  const right = step(to, "reading by the calibration line", line.offset + line.slope * reading, unit);
  return step(to, "extract", extractFrom(right, scale), "°P", scale === "P" ? undefined : TABLE_114);
}
