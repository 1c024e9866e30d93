import { checkRange, type Range } from "../refusal.js";

/** Resolution and maximum permissible error of a scale, in its own units. */
export interface ScaleAccuracy {
  /** Resolution: the smallest division. */
  readonly division: number;
  /** Maximum permissible error: the maker's limit for errors of the scale. */
  readonly maximumError: number;
}

/**
 * Accuracy of a scale from its division, its maximum permissible error, or both. If one is missing, the other stands
 * for it: most makers promise one division, as do classes L20, L50, M50, M100 and S50 of ISO 649-1:1981 (from memory;
 * we have not seen the standard), and a °P spindle as listed by its maker.
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

/** Common practice, no source: a hydrometer with an SG scale. */
export const plainHydrometerAccuracy: ScaleAccuracy = { division: 0.001, maximumError: 0.001 };

/** Hand refractometers are good to ±0.2 °Bx, which is their division. Common practice, no source. */
export const plainRefractometerAccuracy: ScaleAccuracy = { division: 0.2, maximumError: 0.2 };

/** Default half-width of a sample's temperature, °C. Common practice, no source. */
export const DEFAULT_TEMPERATURE_HALF_WIDTH = 1;

export const temperatureHalfWidthRange: Range = {
  of: "uncertainty of the temperature",
  min: 0,
  max: 20,
  unit: "°C",
};

/** @throws Refusal for a half-width beyond that of any thermometer */
export function checkTemperatureHalfWidth(kelvins: number): void {
  checkRange(temperatureHalfWidthRange, kelvins);
}
