import { BALLING_TABARIE, beerByExtracts, isSameExtract, originalRange, type Beer } from "./beer.js";
import { extractRange, gravityOfExtract } from "../liquid/gravity.js";
import { LOST_PER_ALCOHOL } from "../liquid/mixture.js";
import { checkRange, Refusal } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { wortDensity20 } from "../liquid/wort-density.js";

/** Carbon dioxide produced with each gram of ethanol, g: Balling, as in AOAC 935.20, ASBC Beer-6 and EBC 9.4. */
export const CO2_PER_ALCOHOL = 0.9565;

/** Grams of carbon dioxide per litre in one volume: the trade's figure for the gas at 0 °C and 1 atm. */
export const GRAMS_PER_VOLUME = 1.96;

/** Units of carbon dioxide: grams per litre of beer, or volumes of gas per volume of beer. */
export const co2Units = ["G/L", "VOL"] as const;
export type Co2Unit = (typeof co2Units)[number];

/**
 * Alcohol made from 100 g of wort, g. The beer weighs less than its wort by the carbon dioxide and yeast that it has
 * lost.
 */
const madeOfWort = ({ abw }: Beer): number => (100 * abw) / (100 + LOST_PER_ALCOHOL * abw);

/**
 * Carbon dioxide still to come from the extract between the present and the expected final gravity, by Balling's
 * balance. Any that is already dissolved comes on top.
 *
 * Two gravities alone do not say how much alcohol hides the extract. For the same loss of gravity a stronger wort makes
 * more carbon dioxide, so without an original gravity we assume the strongest wort covered: never too low, and at most
 * 6.5 % too high for any wort of 5 °P or more.
 *
 * @param apparent present apparent extract, °P, −4 to 30
 * @param expected apparent extract at which fermentation is expected to end, °P
 * @param original original extract, °P, if known
 * @param to listener for the steps
 * @returns g per litre of the beer as it is now, at 20 °C
 * @throws Refusal if the beer is already past the expected extract, and as `beerByExtracts` does
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
  // Grams of wort that made a litre of the present beer: its density in kg/m³ is also g/L.
  const wort = wortDensity20(apparent) * (1 + (LOST_PER_ALCOHOL * now.abw) / 100);
  step(to, "alcohol by mass now", now.abw, "% m/m", BALLING_TABARIE);
  step(to, "alcohol by mass at the expected end", then.abw, "% m/m", BALLING_TABARIE);
  const made = (CO2_PER_ALCOHOL * wort * (madeOfWort(then) - madeOfWort(now))) / 100;
  return step(to, "carbon dioxide still to come", made, "g/L", "Balling: 0.9565 g with each gram of alcohol");
}

/** Converts grams per litre to another unit. */
export function co2In(unit: Co2Unit, gramsPerLitre: number): number {
  return unit === "VOL" ? gramsPerLitre / GRAMS_PER_VOLUME : gramsPerLitre;
}
