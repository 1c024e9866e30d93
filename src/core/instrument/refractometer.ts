import { extractOfGravity, TABLE_114 } from "../liquid/gravity.js";
import { checkRange, type Range } from "../refusal.js";
import { PROFILE, step, type Listener } from "../steps.js";
import { brixRange } from "../liquid/refractive-index.js";
import { refractometerCorrection, TABLE_1936 } from "./refractometer-temperature.js";

/** What the maker and the user say about a refractometer. */
export interface Refractometer {
  /** An SG scale is taken as the gravity of the sucrose solution with the refractive index seen. */
  readonly scale: "BX" | "SG";
  /** Whether it refers its reading to 20 °C by itself. */
  readonly compensates: boolean;
  /** °Bx reading of unfermented wort over its °P. */
  readonly wortFactor: number;
  /** Reading on distilled water, in units of its scale. */
  readonly waterReading: number;
}

/**
 * Compensating, correct on water, wort correction factor 1.04. That factor is common practice, not a standard:
 * published constants range from 1.00 to 1.045, so brewers should find their own.
 */
export const plainRefractometer: Refractometer = {
  scale: "BX",
  compensates: true,
  wortFactor: 1.04,
  waterReading: 0,
};

/**
 * Readings that a working refractometer can give on water; beyond these it is another liquid, or the instrument is
 * broken. Common practice, no source.
 */
export const waterReadingRange: Record<Refractometer["scale"], Range> = {
  SG: { of: "reading on water", min: 0.99, max: 1.01, unit: "SG" },
  BX: { of: "reading on water", min: -2, max: 2, unit: "°Bx" },
};

export const wortFactorRange: Range = { of: "wort correction factor", min: 0.9, max: 1.1, unit: "" };

/**
 * Reading in °Bx referred to 20 °C, corrected for scale, zero on water and temperature.
 *
 * @param reading as read, in units of the scale
 * @param tC temperature of the prism, °C, 10 to 30; not needed if the instrument compensates
 * @param to listener for the steps
 * @throws Refusal outside 0 to 30 °Bx, or 10 to 30 °C
 */
export function brixByRefractometer(
  reading: number,
  refractometer: Omit<Refractometer, "wortFactor">,
  tC = NaN,
  to?: Listener,
): number {
  const { scale, compensates, waterReading } = refractometer;
  const onScale = (value: number): number => (scale === "SG" ? extractOfGravity(value) : value);
  const brix = onScale(reading) - onScale(waterReading);
  if (scale === "SG") step(to, "reading as sucrose", brix, "°Bx", TABLE_114);
  else if (waterReading !== 0) step(to, "reading with its zero on water put right", brix, "°Bx", PROFILE);
  checkRange(brixRange, brix);
  if (compensates) return step(to, "reading at 20 °C, compensated by the instrument", brix, "°Bx", PROFILE);
  const correction = step(to, "temperature correction", refractometerCorrection(brix, tC), "°Bx", TABLE_1936);
  return step(to, "reading at 20 °C", brix + correction, "°Bx");
}

/**
 * Extract of unfermented wort.
 *
 * @param brix referred to 20 °C, °Bx
 * @param factor wort correction factor, 0.9 to 1.1
 * @param to listener for the steps
 * @returns °P
 */
export function extractByRefractometer(brix: number, factor: number, to?: Listener): number {
  checkRange(wortFactorRange, factor);
  return step(to, "extract", brix / factor, "°P");
}
