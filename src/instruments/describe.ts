import type { FloatingProfile, HydrometerProfile, Profile, RefractometerProfile } from "./schema.js";

const scaleName = { SG: "SG", P: "°P", BX: "°Bx" } as const;

function hydrometer(profile: HydrometerProfile): string[] {
  const {
    scale,
    temperatureUnit,
    calibrationTemperature,
    referenceTemperature,
    lowest,
    highest,
    read,
    checks,
  } = profile;
  const reference =
    referenceTemperature === undefined ? "" : ` against water of ${referenceTemperature} °${temperatureUnit}`;
  return [
    `hydrometer, ${scaleName[scale]} scale true at ${calibrationTemperature} °${temperatureUnit}${reference}`,
    ...(lowest === undefined && highest === undefined
      ? []
      : [`graduated ${lowest ?? "…"} to ${highest ?? "…"}`]),
    read === "level"
      ? "read at the level surface"
      : `read at the top of the meniscus, ${profile.meniscusAllowance ?? 0} added`,
    ...(checks ?? []).map((check) => `shows ${check.reading} at ${check.true}`),
  ];
}

function refractometer({
  scale,
  compensates,
  wortFactor,
  waterReading,
  temperatureUnit,
}: RefractometerProfile): string[] {
  return [
    `refractometer, ${scaleName[scale]} scale`,
    compensates ? "compensates temperature" : `temperature in °${temperatureUnit} needed`,
    `wort correction factor ${wortFactor}`,
    ...(waterReading === undefined ? [] : [`shows ${waterReading} on water`]),
  ];
}

function floating({ scale, pairs }: FloatingProfile): string[] {
  return [
    `floating hydrometer, ${scaleName[scale]} scale`,
    pairs.length === 0
      ? "not calibrated"
      : `calibrated by ${pairs.map((pair) => `${pair.reading} → ${pair.true}`).join(", ")}`,
  ];
}

/** All that matters about an instrument in one line, for a note beside a result. */
export function describe(profile: Profile): string {
  const facts =
    profile.kind === "hydrometer"
      ? hydrometer(profile)
      : profile.kind === "refractometer"
        ? refractometer(profile)
        : floating(profile);
  return `${profile.name}: ${facts.join(", ")}.`;
}
