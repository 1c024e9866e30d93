import type { FloatingProfile, HydrometerProfile, Kind, Profile, RefractometerProfile } from "./schema.js";

const scaleName = { SG: "SG", P: "°P", BX: "°Bx" } as const;

/** As marked on the scale: gravities have at least three decimals. */
function mark(value: number | undefined, scale: Profile["scale"]): string {
  if (value === undefined) return "…";
  const decimals = String(value).split(".")[1]?.length ?? 0;
  return scale === "SG" ? value.toFixed(Math.max(3, decimals)) : String(value);
}

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
    `${scaleName[scale]} scale true at ${calibrationTemperature} °${temperatureUnit}${reference}`,
    ...(lowest === undefined && highest === undefined
      ? []
      : [`graduated ${mark(lowest, scale)} to ${mark(highest, scale)}`]),
    read === "level"
      ? "read at the level surface"
      : `read at the top of the meniscus, ${profile.meniscusAllowance ?? 0} added`,
    ...(checks ?? []).map((check) => `shows ${mark(check.reading, scale)} at ${mark(check.true, scale)}`),
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
    `${scaleName[scale]} scale`,
    compensates ? "compensates temperature" : `temperature in °${temperatureUnit} needed`,
    `wort correction factor ${wortFactor}`,
    ...(waterReading === undefined ? [] : [`shows ${mark(waterReading, scale)} on water`]),
  ];
}

function floating({ scale, pairs }: FloatingProfile): string[] {
  return [
    `${scaleName[scale]} scale`,
    pairs.length === 0
      ? "not calibrated"
      : `calibrated by ${pairs.map((pair) => `${mark(pair.reading, scale)} → ${mark(pair.true, scale)}`).join(", ")}`,
  ];
}

const kindName = {
  hydrometer: "hydrometer",
  refractometer: "refractometer",
  floating: "floating hydrometer",
};

export const kinds = Object.keys(kindName) as Kind[];

/** The trade's name of a kind. */
export const kindOf = ({ kind }: Pick<Profile, "kind">): string => kindName[kind];

/** Content of a profile apart from its name and kind, most important first. */
export function factsOf(profile: Profile): string[] {
  switch (profile.kind) {
    case "hydrometer":
      return hydrometer(profile);
    case "refractometer":
      return refractometer(profile);
    case "floating":
      return floating(profile);
  }
}

/** Everything that matters about an instrument in one line, for a note beside a result. */
export function describe(profile: Profile): string {
  return `${profile.name}: ${kindOf(profile)}, ${factsOf(profile).join(", ")}.`;
}
