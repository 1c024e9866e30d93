import { calibrationLine, type CheckPoint } from "./calibration.js";
import { check } from "./range.js";
import { extractFrom } from "./scales.js";

/** A floating digital hydrometer: what it shows, compared with a glass hydrometer. */
export interface FloatingHydrometer {
  readonly scale: "SG" | "P";
  readonly pairs: readonly CheckPoint[];
}

/** How far beyond its outermost calibration pairs a line is trusted, in units of the scale. Common practice, no source. */
export const reach: Record<FloatingHydrometer["scale"], number> = { SG: 0.02, P: 5 };

/**
 * Extract by a floating hydrometer, put right by the line through its calibration pairs.
 *
 * @param reading as logged, in units of its scale
 * @returns °P
 * @throws Refusal farther than 0.020 SG (5 °P) from the calibration pairs, and outside −4 to 30 °P
 */
export function extractByFloating(reading: number, { scale, pairs }: FloatingHydrometer): number {
  if (pairs.length > 0) {
    const readings = pairs.map((pair) => pair.reading);
    const min = Math.min(...readings) - reach[scale];
    const max = Math.max(...readings) + reach[scale];
    check(
      { of: "reading of this floating hydrometer", min, max, unit: scale === "P" ? "°P" : "SG" },
      reading,
    );
  }
  const line = calibrationLine(pairs);
  return extractFrom(line.offset + line.slope * reading, scale);
}
