import { volumeRange } from "../brewhouse/amounts.js";
import type { Beer } from "./beer.js";
import { checkRange, type Range } from "../refusal.js";
import { step, type Listener } from "../steps.js";

// ASBC Beer-33. Ash is taken as 0.1 %, the usual value if nobody measured it.
const KCAL_PER_G_ALCOHOL = 6.9;
const KCAL_PER_G_EXTRACT = 4;
const ASH = 0.1; // % by mass

const millilitresRange: Range = { ...volumeRange, unit: "mL" };

const beerExtractRange: Range = { of: "real extract", min: ASH, max: 30, unit: "°P" };

/**
 * Energy of beer, ASBC Beer-33. Not for a label: labels need the factors set by law and a laboratory analysis.
 *
 * @param millilitres volume of beer, 0 to 1e9
 * @param to listener for the steps
 * @returns kcal
 * @throws Refusal below 0.1 °P of real extract, where the method does not apply, and outside the range of volumes
 */
export function energy({ abw, realExtract, gravity }: Beer, millilitres: number, to?: Listener): number {
  checkRange(beerExtractRange, realExtract);
  checkRange(millilitresRange, millilitres);
  const per100g = KCAL_PER_G_ALCOHOL * abw + KCAL_PER_G_EXTRACT * (realExtract - ASH);
  step(to, "energy of 100 g", per100g, "kcal", "ASBC Beer-33");
  return step(to, "energy of the volume", (per100g * gravity * millilitres) / 100, "kcal");
}
