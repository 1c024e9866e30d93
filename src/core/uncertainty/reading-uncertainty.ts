import { checkRange, type Range } from "../refusal.js";

/** How fine a scale is, in its own units. */
export interface ScaleAccuracy {
  /** Distance of the smallest graduations. */
  readonly division: number;
  /** By how much the maker lets the scale be off. */
  readonly maximumError: number;
}

/**
 * A scale of which the division, the maker's error or both are known. The one stands for the other: most makers promise
 * one division, as classes L20, L50, M50, M100 and S50 of ISO 649-1:1981 have it (from memory, the standard was not
 * opened), and a °P spindle as listed by its maker.
 *
 * @returns undefined if neither is known
 */
export function scaleAccuracy(
  division: number | undefined,
  maximumError: number | undefined,
): ScaleAccuracy | undefined {
  const either = division ?? maximumError;
  if (either === undefined) return undefined;
  return { division: division ?? either, maximumError: maximumError ?? either };
}

/** Common practice, no source: what a hydrometer on an SG scale has. */
export const plainHydrometerAccuracy: ScaleAccuracy = { division: 0.001, maximumError: 0.001 };

/** Hand refractometers are good to ±0.2 °Bx, which is their division. Common practice, no source. */
export const plainRefractometerAccuracy: ScaleAccuracy = { division: 0.2, maximumError: 0.2 };

/** How well a sample's temperature is known unless someone says better, ± °C. Common practice, no source. */
export const DEFAULT_TEMPERATURE_HALF_WIDTH = 1;

export const temperatureHalfWidthRange: Range = {
  of: "uncertainty of the temperature",
  min: 0,
  max: 20,
  unit: "°C",
};

/** @throws Refusal for what no thermometer is off by */
export function checkTemperatureHalfWidth(kelvins: number): void {
  checkRange(temperatureHalfWidthRange, kelvins);
}
