import { describe, kindOf } from "./describe.js";
import type { Profile } from "./schema.js";

/** Properties of a profile that cells can ask for, in trade terms. */
export const properties = [
  "SUMMARY",
  "KIND",
  "SCALE",
  "THERMOMETER",
  "CALIBRATION",
  "REFERENCE",
  "LOWEST",
  "HIGHEST",
  "DIVISION",
  "READ",
  "MENISCUS",
  "MAXIMUM ERROR",
  "COMPENSATES",
  "FACTOR",
  "WATER",
  "SCATTER",
  "CHECKS",
  "EDITED",
] as const;

export type Property = (typeof properties)[number];

type Values = Partial<Record<Property, string | number | boolean | undefined>>;

const pairsText = (pairs: readonly { reading: number; true: number }[]): string =>
  pairs.map((pair) => `${pair.reading} → ${pair.true}`).join(", ");

function ofKind(profile: Profile): Values {
  switch (profile.kind) {
    case "hydrometer":
      return {
        KIND: kindOf(profile),
        THERMOMETER: profile.temperatureUnit,
        CALIBRATION: profile.calibrationTemperature,
        REFERENCE: profile.referenceTemperature ?? profile.calibrationTemperature,
        LOWEST: profile.lowest,
        HIGHEST: profile.highest,
        DIVISION: profile.division,
        READ: profile.read === "level" ? "level surface" : "top of the meniscus",
        MENISCUS: profile.meniscusAllowance ?? 0,
        "MAXIMUM ERROR": profile.maximumError,
        CHECKS: pairsText(profile.checks ?? []),
      };
    case "refractometer":
      return {
        KIND: kindOf(profile),
        THERMOMETER: profile.temperatureUnit,
        DIVISION: profile.division,
        COMPENSATES: profile.compensates,
        FACTOR: profile.wortFactor,
        WATER: profile.waterReading,
      };
    case "floating":
      return { KIND: kindOf(profile), SCATTER: profile.scatter, CHECKS: pairsText(profile.pairs) };
  }
}

/**
 * Value of a property.
 *
 * @returns "" if nothing was entered, undefined if instruments of this kind have no such property
 */
export function propertyOf(profile: Profile, property: Property): string | number | boolean | undefined {
  const values: Values = {
    SUMMARY: describe(profile),
    SCALE: profile.scale,
    EDITED: profile.edited,
    ...ofKind(profile),
  };
  return property in values ? (values[property] ?? "") : undefined;
}
