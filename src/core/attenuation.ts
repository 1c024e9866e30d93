import { originalRange, type Beer } from "./beer.js";
import { check, type Range } from "./range.js";
import { Refusal } from "./refusal.js";
import { gravityOfExtract } from "./gravity.js";
import { EXTRACT_PER_ALCOHOL } from "./mixture.js";

/** Below this there is nothing to take a share of. */
export const attenuableRange: Range = { ...originalRange, min: 0.1 };

/** Above 100 % a beer is lighter than water, which alcohol brings about. */
export const attenuationRange: Range = { of: "apparent attenuation", min: 0, max: 130, unit: "%" };

/**
 * Apparent attenuation: share of the original extract that seems to have gone, by hydrometer.
 *
 * @param original °P, 0.1 to 30
 * @param apparent final apparent extract, °P, −4 to 30
 * @returns %
 */
export function apparentAttenuation(original: number, apparent: number): number {
  check(attenuableRange, original);
  const given = { original: gravityOfExtract(original), final: gravityOfExtract(apparent) };
  if (apparent > original) throw new Refusal({ kind: "final-above-original", ...given });
  return (100 * (original - apparent)) / original;
}

/** Real attenuation of a beer, %: share of the original extract that has fermented (ASBC Beer-6, real degree of fermentation). */
export function realAttenuation({ abw, realExtract, originalExtract }: Beer): number {
  check(attenuableRange, originalExtract);
  const fermented = EXTRACT_PER_ALCOHOL * abw;
  return (100 * fermented) / (fermented + realExtract);
}

/**
 * Apparent extract at which a wort has reached an apparent attenuation.
 *
 * @param original °P, 0 to 30
 * @param attenuation %, 0 to 130
 * @returns °P
 */
export function finalExtract(original: number, attenuation: number): number {
  check(originalRange, original);
  check(attenuationRange, attenuation);
  return original * (1 - attenuation / 100);
}
