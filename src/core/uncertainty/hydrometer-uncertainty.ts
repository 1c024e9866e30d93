import { extractOfGravity, gravityOfExtract } from "../liquid/gravity.js";
import { extractByHydrometer, type Hydrometer } from "../instrument/hydrometer.js";
import { exactly, normal, toNearest, rectangular, type Model } from "./uncertainty.js";
import { checkTemperatureHalfWidth, type ScaleAccuracy } from "./reading-uncertainty.js";

// Largest deviation of the floating balance from the printed temperature table for °Bx hydrometers, °Bx. From 10 to 30
// °C it covers the 300 cells of tests/reference/hydrometer-temp-brix20-transcribed.csv, rounded up. Below and above,
// columns of the same table from memory, at 0, 5, and 35 to 60 °C. No printed table goes beyond 60 °C; doubling the
// last value is our own caution.
const offTable: readonly (readonly [toC: number, off: number])[] = [
  [5, 0.105],
  [10, 0.045],
  [20, 0.015],
  [25, 0.02],
  [30, 0.035],
  [60, 0.055],
  [80, 0.11],
];

/** Half-width of the error of the temperature correction, °P. */
export const correctionHalfWidth = (tC: number): number => offTable.find(([toC]) => tC <= toC)?.[1] ?? 0;

/**
 * Surface tension and contact angle affect a hydrometer in use: NIST SP 250-78 (2010) and Meas. Sci. Technol. 19 (2008)
 * 015104 give 370 ppm of the density or more where calibration gives 100 ppm at k = 2 (we read the abstract, not the
 * text). Taken as k = 2 too.
 */
const SURFACE = 370e-6 / 2;

export type HydrometerName =
  | "reading to the nearest division"
  | "maker's error of the scale"
  | "sample temperature"
  | "temperature correction"
  | "surface of the liquid";

/** A hydrometer reading, and how well its inputs are known. */
export interface HydrometerReading {
  /** In units of the scale. */
  readonly reading: number;
  readonly tC: number;
  readonly hydrometer: Hydrometer;
  readonly accuracy: ScaleAccuracy;
  /** ±, °C. */
  readonly temperatureHalfWidth: number;
}

/**
 * Gravity by hydrometer, computed by `extractByHydrometer`, with the quantities that make it uncertain. @throws Refusal
 * as that function does
 */
export function hydrometerModel(
  { reading, tC, hydrometer, accuracy, temperatureHalfWidth }: HydrometerReading,
  scale: "SG" | "P",
): Model<HydrometerName> {
  checkTemperatureHalfWidth(temperatureHalfWidth);
  return {
    of: {
      "reading to the nearest division": toNearest(reading, accuracy.division),
      "maker's error of the scale": rectangular(0, accuracy.maximumError),
      "sample temperature": rectangular(tC, temperatureHalfWidth),
      "temperature correction":
        tC === hydrometer.calibrationC ? exactly(0) : rectangular(0, correctionHalfWidth(tC)),
      "surface of the liquid": normal(0, SURFACE),
    },
    result: (at) => {
      const mark = at["reading to the nearest division"] + at["maker's error of the scale"];
      const extract =
        extractByHydrometer(mark, at["sample temperature"], hydrometer) + at["temperature correction"];
      const gravity = gravityOfExtract(extract) * (1 + at["surface of the liquid"]);
      return scale === "SG" ? gravity : extractOfGravity(gravity);
    },
  };
}
