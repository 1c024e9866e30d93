import type { FloatingHydrometer } from "../core/instrument/floating.js";
import type { Hydrometer } from "../core/instrument/hydrometer.js";
import type { Refractometer } from "../core/instrument/refractometer.js";
import { celsius } from "../core/liquid/temperature.js";
import { scaleAccuracy, type ScaleAccuracy } from "../core/uncertainty/reading-uncertainty.js";
import type { FloatingProfile, HydrometerProfile, RefractometerProfile } from "./schema.js";

/** Converts a profile to the core's hydrometer: temperatures in °C, defaults filled in. */
export function hydrometerOf(profile: HydrometerProfile): Hydrometer {
  const {
    scale,
    temperatureUnit,
    calibrationTemperature,
    referenceTemperature = calibrationTemperature,
  } = profile;
  return {
    scale,
    calibrationC: celsius(calibrationTemperature, temperatureUnit),
    referenceC: celsius(referenceTemperature, temperatureUnit),
    meniscusAllowance: profile.meniscusAllowance ?? 0,
    checks: profile.checks ?? [],
  };
}

/** Converts a profile to the core's refractometer. */
export function refractometerOf({
  scale,
  compensates,
  wortFactor,
  waterReading,
}: RefractometerProfile): Refractometer {
  return { scale, compensates, wortFactor, waterReading: waterReading ?? (scale === "SG" ? 1 : 0) };
}

/** Accuracy of an instrument's scale; undefined if its profile states neither division nor maximum error. */
export function accuracyOf(profile: HydrometerProfile | RefractometerProfile): ScaleAccuracy | undefined {
  return scaleAccuracy(profile.division, profile.kind === "hydrometer" ? profile.maximumError : undefined);
}

/** Converts a profile to the core's floating hydrometer. */
export function floatingOf({ scale, pairs }: FloatingProfile): FloatingHydrometer {
  return { scale, pairs };
}
