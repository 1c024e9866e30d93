// The pairs stored in a profile, in the form in which they are typed.
import { extractByHydrometer } from "../../core/instrument/hydrometer.js";
import { Refusal } from "../../core/refusal.js";
import { extractFrom } from "../../core/liquid/scales.js";
import { hydrometerOf } from "../../instruments/as-core.js";
import type { Profile } from "../../instruments/schema.js";
import { strengthText, type Column, type StrengthScale } from "./calibration-pairs.js";

/** Strength of a liquid whose true mark is known, °P. */
function extractOfMark(mark: number, profile: Profile): number {
  if (profile.kind !== "hydrometer") return extractFrom(mark, profile.scale);
  const own = hydrometerOf(profile);
  return extractByHydrometer(mark, own.calibrationC, { ...own, meniscusAllowance: 0, checks: [] });
}

/** @returns nothing for kinds that store no pairs; a strength is blank if it is outside the range covered */
export function keptPairs(profile: Profile, strengthScale: StrengthScale): Partial<Record<Column, string>>[] {
  if (profile.kind === "refractometer") return [];
  const kept = profile.kind === "hydrometer" ? (profile.checks ?? []) : profile.pairs;
  return kept.map((pair) => ({
    reading: String(pair.reading),
    ...(profile.kind === "hydrometer" ? { temperature: String(profile.calibrationTemperature) } : {}),
    strength: writtenStrength(pair.true, profile, strengthScale),
  }));
}

function writtenStrength(mark: number, profile: Profile, strengthScale: StrengthScale): string {
  try {
    return strengthText(extractOfMark(mark, profile), strengthScale);
  } catch (error) {
    if (error instanceof Refusal) return "";
    throw error;
  }
}
