import type { CheckPoint } from "./check-point.js";
import { shiftAt, spanOf } from "./calibration.js";
import { TABLE_114 } from "../liquid/gravity.js";
import { checkRange, type Range } from "../refusal.js";
import { PROFILE, step, type Listener } from "../steps.js";
import { SUCROSE_FORM } from "../liquid/sucrose-expansion.js";
import { densityOfGravity, extractOfDensity, gravityOfDensity, wortDensity } from "../liquid/wort-density.js";

/** Cubic expansion of hydrometer glass, 1/K: the conventional value of ISO 1768:1975. */
const GLASS_EXPANSION = 25e-6;

/** From here on reading cool is worth the wait. Common practice, no source. */
const WARM = 35; // °C

/** Where hydrometers are read. The sources for wort end at 80 °C. */
export const sampleTemperature: Range = { of: "sample temperature", min: 0, max: 80, unit: "°C" };

/** Marks of an SG scale between which any wort or beer floats, hot or cold. */
export const sgMarks: Range = { of: "hydrometer reading", min: 0.95, max: 1.2, unit: "SG" };

/** What may stand on a scale: wide enough for every one in use, narrow enough to catch a gravity typed as °P. */
export const scaleMarks = {
  SG: { of: "hydrometer reading", min: 0.9, max: 1.2, unit: "SG" },
  P: { of: "hydrometer reading", min: -10, max: 40, unit: "°P" },
  BX: { of: "hydrometer reading", min: -10, max: 40, unit: "°Bx" },
} satisfies Record<string, Range>;

/** What the maker and the reader have to say about a glass hydrometer. */
export interface Hydrometer {
  readonly scale: keyof typeof scaleMarks;
  /** Temperature at which the scale is true, °C. */
  readonly calibrationC: number;
  /** Temperature of the water that an SG scale compares with, °C. */
  readonly referenceC: number;
  /** Added to a reading that is taken at the top of the meniscus, in units of the scale; 0 at the level surface. */
  readonly meniscusAllowance: number;
  /** Readings in liquids of known strength at the calibration temperature, taken as all others are. */
  readonly checks: readonly CheckPoint[];
}

/** An SG scale that compares water and wort at 20 °C, read at the level surface, with nothing wrong. */
export const plainHydrometer: Hydrometer = {
  scale: "SG",
  calibrationC: 20,
  referenceC: 20,
  meniscusAllowance: 0,
  checks: [],
};

/** Density that a mark of the scale stands for, kg/m³ at the calibration temperature. */
function markedDensity(mark: number, { scale, calibrationC, referenceC }: Hydrometer): number {
  return scale === "SG" ? densityOfGravity(mark, referenceC) : wortDensity(mark, calibrationC);
}

/** By how much more a hydrometer displaces at a temperature than where its scale is true. */
const displacement = (tC: number, { calibrationC }: Hydrometer): number =>
  1 + GLASS_EXPANSION * (tC - calibrationC);

/**
 * Extract of the wort in which a glass hydrometer floats at a reading.
 *
 * The instrument displaces its own mass at every temperature, and the volume below a mark grows with the glass:
 * ρ(w, t)·(1 + γ(t − t_cal)) = density of the mark. Air on the stem and surface tension are left out. In finished beer
 * the answer is apparent extract: alcohol is taken as lightness, as every hydrometer does.
 *
 * @param reading as read, in units of the scale
 * @param tC temperature of the sample, °C, 0 to 80
 * @param to is told the steps
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

/** A reading with meniscus and scale put right. */
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
 * Mark at the level surface of a wort in which a hydrometer with a faultless scale floats: the inverse of
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
