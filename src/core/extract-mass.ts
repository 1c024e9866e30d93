import { volumeRange } from "./amounts.js";
import { extractRange } from "./gravity.js";
import { check, type Range } from "./range.js";
import { wortDensity20 } from "./wort-density.js";

/** Wort, and water as it may be read; not the "negative" extract of a beer that alcohol makes lighter. */
export const wortRange: Range = { ...extractRange, min: -0.1 };

/**
 * Mass of a volume of wort.
 *
 * @param litres at 20 °C
 * @param extract °P, −0.1 to 30
 * @returns kg
 */
export function wortMass(litres: number, extract: number): number {
  check(volumeRange, litres);
  check(wortRange, extract);
  return (litres * wortDensity20(extract)) / 1000;
}

/**
 * Mass of extract in a volume of wort.
 *
 * @param litres at 20 °C
 * @param extract °P, −0.1 to 30
 * @returns kg
 */
export function extractMass(litres: number, extract: number): number {
  return (wortMass(litres, extract) * extract) / 100;
}
