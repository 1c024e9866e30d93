import type { FloatingHydrometer } from "../core/floating.js";
import type { Hydrometer } from "../core/hydrometer.js";
import type { Refractometer } from "../core/refractometer.js";
import { celsius } from "../core/temperature.js";
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

/** A floating hydrometer as the core wants it. */
export function floatingOf({ scale, pairs }: FloatingProfile): FloatingHydrometer {
  return { scale, pairs };
}
