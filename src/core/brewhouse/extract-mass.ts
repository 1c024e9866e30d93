import { volumeRange } from "./amounts.js";
import { extractRange, TABLE_114 } from "../liquid/gravity.js";
import { checkRange, type Range } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { wortDensity20 } from "../liquid/wort-density.js";

const KG = "kg, for a volume in L";

/** Wort, with room for water that reads slightly below 0, but not for beer, which alcohol makes lighter than water. */
export const wortRange: Range = { ...extractRange, min: -0.1 };

/**
 * Mass of a volume of wort.
 *
 * @param litres at 20 °C
 * @param extract °P, −0.1 to 30
 * @param to listener for the steps
 * @returns kg
 */
export function wortMass(litres: number, extract: number, to?: Listener): number {
  checkRange(volumeRange, litres);
  checkRange(wortRange, extract);
  return step(to, "mass of the wort", (litres * wortDensity20(extract)) / 1000, KG, TABLE_114);
}

/**
 * Mass of extract in a volume of wort.
 *
 * @param litres at 20 °C
 * @param extract °P, −0.1 to 30
 * @param to listener for the steps
 * @returns kg
 */
export function extractMass(litres: number, extract: number, to?: Listener): number {
  return step(to, "extract in the wort", (wortMass(litres, extract, to) * extract) / 100, KG);
}
