import { beerByExtracts, extractLost, isSameExtract, originalRange, tellBeer } from "./beer.js";
import { dutyAbv } from "./duty-uk.js";
import { ETHANOL_20 } from "../liquid/ethanol-density.js";
import { extractRange, gravityOfExtract } from "../liquid/gravity.js";
import { EXTRACT_PER_ALCOHOL, LOST_PER_ALCOHOL } from "../liquid/mixture.js";
import { checkRange, type Range } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { wortDensity20 } from "../liquid/wort-density.js";

export const methods = ["BALLING", "QUOTIENT", "DUTY-UK", "RULE"] as const;
export type Method = (typeof methods)[number];

/** The range of original extracts for which Balling gives his quotient. */
const quotientRange: Range = { of: "original extract", min: 6, max: 30, unit: "°P" };

/**
 * Alcohol by volume at 20 °C.
 *
 * @param original original extract, °P
 * @param apparent final apparent extract, °P
 * @param method BALLING: mass balance closed by Tabarié density. QUOTIENT: Balling's tables. DUTY-UK: the factors of
 *   the UK beer duty notice, not rounded. RULE: 131.25 × the difference of the gravities (common practice, no source)
 * @param to listener for the steps
 * @returns % vol
 * @throws Refusal outside the range of the method, and if the final extract is above the original one
 */
export function alcoholByVolume(original: number, apparent: number, method: Method, to?: Listener): number {
  if (method === "BALLING") {
    const beer = beerByExtracts(original, apparent);
    tellBeer(beer, ["realExtract", "abw", "abv"], to);
    return beer.abv;
  }
  checkRange(originalRange, original);
  checkRange(extractRange, apparent);
  const lost = extractLost(original, apparent);
  const og = gravityOfExtract(original);
  const fg = lost === 0 ? og : gravityOfExtract(apparent);
  switch (method) {
    case "QUOTIENT":
      return abvByQuotient(original, apparent, to);
    case "DUTY-UK":
      return dutyAbv(og, fg, to);
    case "RULE":
      to?.warn({ kind: "rule-of-thumb" });
      step(to, "gravity lost", og - fg, "");
      return step(to, "alcohol by volume", 131.25 * (og - fg), "% vol", "common practice, no source");
  }
}

/** Attenuation quotient of Balling's tables A and B (19th century): (original − apparent)/(original − real) extract. */
function abvByQuotient(original: number, apparent: number, to: Listener | undefined): number {
  checkRange(quotientRange, original);
  const quotient = step(to, "attenuation quotient", 1.22 + 0.001 * original, "", "Balling's tables A and B");
  const unchanged = isSameExtract(original, apparent);
  const extract = unchanged ? original : ((quotient - 1) * original + apparent) / quotient;
  const real = step(to, "real extract", extract, "°P");
  const abw = (original - real) / (EXTRACT_PER_ALCOHOL - (LOST_PER_ALCOHOL * original) / 100);
  step(to, "alcohol by mass", abw, "% m/m", "Balling's mass balance");
  const abv = (abw * wortDensity20(apparent)) / ETHANOL_20;
  return step(to, "alcohol by volume at 20 °C", abv, "% vol", "density of ethanol: OIML R 22");
}
