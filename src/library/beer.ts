import { alcoholByVolume, methods } from "../core/beer/alcohol-methods.js";
import { apparentAttenuation, finalExtract, realAttenuation } from "../core/beer/attenuation.js";
import { beerByExtracts, type Beer } from "../core/beer/beer.js";
import { gravityOfExtract } from "../core/liquid/gravity.js";
import { answered, mustBeOneOf, platoOf } from "./answered.js";

/**
 * Methods for alcohol. BALLING: mass balance closed by Tabarié's density. QUOTIENT: Balling's tables, from 6 °P.
 * DUTY-UK: factors of the UK beer duty notice, not rounded. RULE: 131.25 × the difference of the gravities (common
 * practice, no source).
 */
export type AlcoholMethod = "BALLING" | "QUOTIENT" | "DUTY-UK" | "RULE";

/**
 * Alcohol from the gravities before and after fermentation.
 *
 * @param originalSg specific gravity 20 °C/20 °C before fermentation, up to 30 °P
 * @param finalSg apparent specific gravity 20 °C/20 °C of the beer
 * @param method "BALLING" by default
 * @returns % by volume at 20 °C; expect ±0.15 to 0.3, since yields vary
 * @throws RangeError outside these ranges, if the final gravity is above the original one or lower than a wort can
 *   reach, and for an unknown method
 */
export function abvFromGravities(
  originalSg: number,
  finalSg: number,
  method: AlcoholMethod = "BALLING",
): number {
  mustBeOneOf("method", method, methods);
  return fromGravities(originalSg, finalSg, (original, apparent) =>
    alcoholByVolume(original, apparent, method),
  );
}

/**
 * Alcohol by mass from the gravities before and after fermentation, by Balling's mass balance and Tabarié's density.
 *
 * @param originalSg specific gravity 20 °C/20 °C before fermentation
 * @param finalSg apparent specific gravity 20 °C/20 °C of the beer
 * @returns % by mass
 * @throws RangeError as `abvFromGravities`
 */
export function abwFromGravities(originalSg: number, finalSg: number): number {
  return beerOf(originalSg, finalSg).abw;
}

/**
 * Real extract of a beer. A hydrometer shows less, because of the alcohol.
 *
 * @param originalSg specific gravity 20 °C/20 °C before fermentation
 * @param finalSg apparent specific gravity 20 °C/20 °C of the beer
 * @returns real extract, °P
 * @throws RangeError as `abvFromGravities`
 */
export function realExtractPlato(originalSg: number, finalSg: number): number {
  return beerOf(originalSg, finalSg).realExtract;
}

/**
 * Share of the original extract that seems to have gone, by hydrometer.
 *
 * @param originalSg specific gravity 20 °C/20 °C before fermentation, at least 0.1 °P
 * @param finalSg apparent specific gravity 20 °C/20 °C of the beer
 * @returns apparent attenuation, %; above 100 for beer lighter than water
 * @throws RangeError outside these ranges, and if the final gravity is above the original one
 */
export function apparentAttenuationPercent(originalSg: number, finalSg: number): number {
  return fromGravities(originalSg, finalSg, (original, apparent) => apparentAttenuation(original, apparent));
}

/**
 * Share of the original extract that has fermented: the real degree of fermentation (ASBC Beer-6).
 *
 * @param originalSg specific gravity 20 °C/20 °C before fermentation, at least 0.1 °P
 * @param finalSg apparent specific gravity 20 °C/20 °C of the beer
 * @returns real attenuation, %
 * @throws RangeError as `abvFromGravities`
 */
export function realAttenuationPercent(originalSg: number, finalSg: number): number {
  return fromGravities(originalSg, finalSg, (original, apparent) =>
    realAttenuation(beerByExtracts(original, apparent)),
  );
}

/**
 * Gravity at which a wort reaches an apparent attenuation.
 *
 * @param originalSg specific gravity 20 °C/20 °C before fermentation
 * @param attenuationPercent apparent attenuation, %, 0 to 130
 * @returns apparent specific gravity 20 °C/20 °C
 * @throws RangeError outside these ranges
 */
export function finalSgFromAttenuation(originalSg: number, attenuationPercent: number): number {
  return answered({ originalSg, attenuationPercent }, () =>
    gravityOfExtract(finalExtract(platoOf("originalSg", originalSg), attenuationPercent)),
  );
}

const beerOf = (originalSg: number, finalSg: number): Beer =>
  fromGravities(originalSg, finalSg, beerByExtracts);

function fromGravities<T>(
  originalSg: number,
  finalSg: number,
  calculate: (original: number, apparent: number) => T,
): T {
  return answered({ originalSg, finalSg }, () =>
    calculate(platoOf("originalSg", originalSg), platoOf("finalSg", finalSg)),
  );
}
