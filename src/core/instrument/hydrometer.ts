import type { CheckPoint } from "./check-point.js";
import { shiftAt, spanOf } from "./calibration.js";
import { TABLE_114 } from "../liquid/gravity.js";
import { checkRange, type Range } from "../refusal.js";
import { PROFILE, step, type Listener } from "../steps.js";
import { SUCROSE_FORM } from "../liquid/sucrose-expansion.js";
import { densityOfGravity, extractOfDensity, gravityOfDensity, wortDensity } from "../liquid/wort-density.js";

/** Cubic thermal expansion of hydrometer glass, 1/K: the conventional value of ISO 1768:1975. */
const GLASS_EXPANSION = 25e-6;

/** Above this, it is worth letting the sample cool. Common practice, no source. */
const WARM = 35; // °C

/** Temperatures at which hydrometers are read. The sources for wort end at 80 °C. */
export const sampleTemperature: Range = { of: "sample temperature", min: 0, max: 80, unit: "°C" };

/** Range of SG marks at which any wort or beer floats a hydrometer, hot or cold. */
export const sgMarks: Range = { of: "hydrometer reading", min: 0.95, max: 1.2, unit: "SG" };

/** Marks that a scale may have: wide enough for every scale in use, narrow enough to catch a gravity typed as °P. */
export const scaleMarks = {
  SG: { of: "hydrometer reading", min: 0.9, max: 1.2, unit: "SG" },
  P: { of: "hydrometer reading", min: -10, max: 40, unit: "°P" },
  BX: { of: "hydrometer reading", min: -10, max: 40, unit: "°Bx" },
} satisfies Record<string, Range>;

/** What the maker and the reader say about a glass hydrometer. */
export interface Hydrometer {
  readonly scale: keyof typeof scaleMarks;
  /** Temperature at which the scale is true, °C. */
  readonly calibrationC: number;
  /** Temperature of the water to which an SG scale refers, °C. */
  readonly referenceC: number;
  /** Added to a reading taken at the top of the meniscus, in units of the scale; 0 at the level surface. */
  readonly meniscusAllowance: number;
  /** Readings in liquids of known strength at the calibration temperature, taken like all others. */
  readonly checks: readonly CheckPoint[];
}

/** An SG 20/20 scale without errors, read at the level surface. */
export const plainHydrometer: Hydrometer = {
  scale: "SG",
  calibrationC: 20,
  referenceC: 20,
  meniscusAllowance: 0,
  checks: [],
};

/** Density marked on the scale, kg/m³ at the calibration temperature. */
function markedDensity(mark: number, { scale, calibrationC, referenceC }: Hydrometer): number {
  return scale === "SG" ? densityOfGravity(mark, referenceC) : wortDensity(mark, calibrationC);
}

/** Volume displaced at a temperature, relative to that at the calibration temperature. */
const displacement = (tC: number, { calibrationC }: Hydrometer): number =>
  1 + GLASS_EXPANSION * (tC - calibrationC);

/**
 * Extract of the wort in which a glass hydrometer floats at a reading.
 *
 * A floating hydrometer displaces its own mass at every temperature, and the volume below a mark grows with the glass:
 * ρ(w, t)·(1 + γ(t − t_cal)) = density of the mark. Air on the stem and surface tension are neglected. In finished beer
 * the result is apparent extract, because alcohol makes the beer lighter.
 *
 * @param reading as read, in units of the scale
 * @param tC temperature of the sample, °C, 0 to 80
 * @param to listener for the steps
 * @returns °P, −4 to 30
 * @throws Refusal outside these ranges
 */
export function extractByHydrometer(
  reading: number,
  tC: number,
  hydrometer = plainHydrometer,
  to?: Listener,
): number {
  checkRange(sampleTemperature, tC);
  if (tC >= WARM) to?.warn({ kind: "hot-sample", tC });
  const mark = trueMark(reading, hydrometer, to);
  const marked = step(
    to,
    "density for which the scale is marked there",
    markedDensity(mark, hydrometer),
    "kg/m³",
    hydrometer.scale === "SG" ? undefined : TABLE_114,
  );
  const grown = step(to, "growth of the glass", displacement(tC, hydrometer), "", "ISO 1768:1975");
  const density = step(to, "density of the sample at its temperature", marked / grown, "kg/m³");
  return step(to, "extract", extractOfDensity(density, tC), "°P", SUCROSE_FORM);
}

/** A reading corrected for meniscus and scale. */
function trueMark(
  reading: number,
  { scale, meniscusAllowance, checks }: Hydrometer,
  to: Listener | undefined,
): number {
  const { unit } = scaleMarks[scale];
  const shift = shiftAt(reading, checks, meniscusAllowance);
  const level = reading + meniscusAllowance;
  if (meniscusAllowance !== 0) step(to, "reading at the level surface", level, unit, PROFILE);
  const mark = level + shift;
  if (to && checks.length > 0) {
    step(to, "reading with the scale put right", mark, unit, PROFILE);
    const [from, end] = spanOf(checks);
    const isOutside = reading < from || reading > end;
    if (isOutside && checks.length > 1) to.warn({ kind: "outside-checks", reading, from, to: end });
  }
  return mark;
}

/**
 * Mark at the level surface when a hydrometer with a faultless scale floats in a wort: the inverse of
 * `extractByHydrometer`, without meniscus and check points.
 *
 * @param extract °P, −4 to 30
 * @param tC temperature of the wort, °C, 0 to 80
 * @returns in units of the scale
 * @throws Refusal outside these ranges
 */
export function markOf(extract: number, tC: number, hydrometer: Hydrometer): number {
  checkRange(sampleTemperature, tC);
  const density = wortDensity(extract, tC) * displacement(tC, hydrometer);
  return hydrometer.scale === "SG"
    ? gravityOfDensity(density, hydrometer.referenceC)
    : extractOfDensity(density, hydrometer.calibrationC);
}
