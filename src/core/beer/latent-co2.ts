import { BALLING_TABARIE, beerByExtracts, isSameExtract, originalRange, type Beer } from "./beer.js";
import { extractRange, gravityOfExtract } from "../liquid/gravity.js";
import { LOST_PER_ALCOHOL } from "../liquid/mixture.js";
import { checkRange, Refusal } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { wortDensity20 } from "../liquid/wort-density.js";

/** Carbon dioxide that comes with a gram of ethanol, g: Balling, as AOAC 935.20, ASBC Beer-6 and EBC 9.4 have it. */
export const CO2_PER_ALCOHOL = 0.9565;

/** Grams of carbon dioxide in a litre that hold one volume of it: the trade's figure for the gas at 0 °C and 1 atm. */
export const GRAMS_PER_VOLUME = 1.96;

/** How carbon dioxide is written: grams in a litre of beer, or volumes of gas in one of beer. */
export const co2Units = ["G/L", "VOL"] as const;
export type Co2Unit = (typeof co2Units)[number];

/** Alcohol made of 100 g of wort, g. The wort has since lost carbon dioxide and yeast. */
const madeOfWort = ({ abw }: Beer): number => (100 * abw) / (100 + LOST_PER_ALCOHOL * abw);

/**
 * Carbon dioxide that the extract between the present and the expected final gravity would still make, by Balling's
 * balance. What is dissolved already comes on top.
 *
 * The two gravities alone leave open how much alcohol hides the extract. Stronger wort makes more carbon dioxide of the
 * same gravity lost, so the strongest that is covered stands for an unknown one: never too low, and at most 6.5 % above
 * what any wort of 5 °P or more would make.
 *
 * @param apparent present apparent extract, °P, −4 to 30
 * @param expected apparent extract at which fermentation is expected to end, °P
 * @param original original extract, °P, if it is known
 * @param to is told the steps
 * @returns g in a litre of the beer as it is now, at 20 °C
 * @throws Refusal if the beer is already past what was expected, and as `beerByExtracts` does
 */
export function latentCo2(
  apparent: number,
  expected: number,
  original = originalRange.max,
  to?: Listener,
): number {
  checkRange(extractRange, apparent);
  checkRange(extractRange, expected);
  if (apparent < expected && !isSameExtract(apparent, expected))
    throw new Refusal({
      kind: "below-expected",
      gravity: gravityOfExtract(apparent),
      expected: gravityOfExtract(expected),
    });
  const now = beerByExtracts(original, apparent);
  const then = isSameExtract(apparent, expected) ? now : beerByExtracts(original, expected);
  // Grams of wort that a litre of the present beer was made of: its density is in kg/m³, which is g/L.
  const wort = wortDensity20(apparent) * (1 + (LOST_PER_ALCOHOL * now.abw) / 100);
  step(to, "alcohol by mass now", now.abw, "% m/m", BALLING_TABARIE);
  step(to, "alcohol by mass at the expected end", then.abw, "% m/m", BALLING_TABARIE);
  const made = (CO2_PER_ALCOHOL * wort * (madeOfWort(then) - madeOfWort(now))) / 100;
  return step(to, "carbon dioxide still to come", made, "g/L", "Balling: 0.9565 g with each gram of alcohol");
}

/** Grams in a litre in another unit. */
export function co2In(unit: Co2Unit, gramsPerLitre: number): number {
  return unit === "VOL" ? gramsPerLitre / GRAMS_PER_VOLUME : gramsPerLitre;
}
