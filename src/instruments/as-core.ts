import type { FloatingHydrometer } from "../core/instrument/floating.js";
import type { Hydrometer } from "../core/instrument/hydrometer.js";
import type { Refractometer } from "../core/instrument/refractometer.js";
import { celsius } from "../core/liquid/temperature.js";
import { scaleAccuracy, type ScaleAccuracy } from "../core/uncertainty/reading-uncertainty.js";
import type { FloatingProfile, HydrometerProfile, RefractometerProfile } from "./schema.js";

/** A hydrometer as the core wants it: temperatures in °C, what the profile leaves out filled in. */
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

/** A refractometer as the core wants it. */
export function refractometerOf({
  scale,
  compensates,
  wortFactor,
  waterReading,
}: RefractometerProfile): Refractometer {
  return { scale, compensates, wortFactor, waterReading: waterReading ?? (scale === "SG" ? 1 : 0) };
}

/** How fine the scale of an instrument is; undefined if its profile says nothing of it. */
export function accuracyOf(profile: HydrometerProfile | RefractometerProfile): ScaleAccuracy | undefined {
  return scaleAccuracy(profile.division, profile.kind === "hydrometer" ? profile.maximumError : undefined);
}

/** A floating hydrometer as the core wants it. */
export function floatingOf({ scale, pairs }: FloatingProfile): FloatingHydrometer {
  return { scale, pairs };
}
