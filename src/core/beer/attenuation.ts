import { extractLost, originalRange, type Beer } from "./beer.js";
import { checkRange, type Range } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { extractRange } from "../liquid/gravity.js";
import { EXTRACT_PER_ALCOHOL } from "../liquid/mixture.js";

const BALLING = "Balling: 2.0665 g of extract give 1 g of alcohol";

const DEFINITION = "definition of apparent attenuation";

/** Below this, attenuation as a share of the original extract has no meaning. */
export const attenuableRange: Range = { ...originalRange, min: 0.1 };

/** Above 100 % the beer is lighter than water because of its alcohol. */
export const attenuationRange: Range = { of: "apparent attenuation", min: 0, max: 130, unit: "%" };

/**
 * Apparent attenuation: the share of the original extract that seems to have gone, going by the hydrometer.
 *
 * @param original °P, 0.1 to 30
 * @param apparent final apparent extract, °P, −4 to 30
 * @param to listener for the steps
 * @returns %
 */
export function apparentAttenuation(original: number, apparent: number, to?: Listener): number {
  checkRange(attenuableRange, original);
  checkRange(extractRange, apparent);
  const lost = step(to, "extract that seems to have gone", extractLost(original, apparent), "°P");
  return step(to, "apparent attenuation", (100 * lost) / original, "%", DEFINITION);
}

/** Real attenuation of a beer, %: share of the original extract that has fermented (ASBC Beer-6, real degree of fermentation). */
export function realAttenuation({ abw, realExtract, originalExtract }: Beer, to?: Listener): number {
  checkRange(attenuableRange, originalExtract);
  const fermented = step(to, "extract fermented", EXTRACT_PER_ALCOHOL * abw, "g per 100 g of beer", BALLING);
  const share = (100 * fermented) / (fermented + realExtract);
  return step(to, "real attenuation", share, "%", "ASBC Beer-6, real degree of fermentation");
}

/**
 * Apparent extract of a wort that has reached a given apparent attenuation.
 *
 * @param original °P, 0 to 30
 * @param attenuation %, 0 to 130
 * @param to listener for the steps
 * @returns °P
 */
export function finalExtract(original: number, attenuation: number, to?: Listener): number {
  checkRange(originalRange, original);
  checkRange(attenuationRange, attenuation);
  return step(to, "extract at that attenuation", original * (1 - attenuation / 100), "°P", DEFINITION);
}
