import { extractOfGravity, extractRange, gravityOfExtract } from "./gravity.js";
import { invert } from "../numeric/invert.js";
import { secantTo } from "../numeric/polynomial.js";
import { checkRange } from "../refusal.js";
import { expansion, sucroseAt, type Sucrose } from "./sucrose-expansion.js";
import { WATER_20, waterDensity } from "./water-density.js";

/** Air at 20 °C, kg/m³: the conventional value used in weighing for the gravity tables (NBS C457, p. 2). */
export const AIR = 1.2;

/** Density of the reference water, kg/m³; precomputed for the temperature that almost every scale uses. */
const comparedWith = (waterC: number): number => (waterC === 20 ? WATER_20 : waterDensity(waterC));

/**
 * Density of a liquid from its apparent gravity.
 *
 * @param gravity apparent specific gravity t/t_water
 * @param waterC temperature of the reference water, °C
 * @returns density in vacuo, kg/m³
 */
export function densityOfGravity(gravity: number, waterC = 20): number {
  return AIR + gravity * (comparedWith(waterC) - AIR);
}

/** The inverse of `densityOfGravity`: apparent gravity from kg/m³. */
export function gravityOfDensity(density: number, waterC = 20): number {
  return (density - AIR) / (comparedWith(waterC) - AIR);
}

/**
 * Density of wort at 20 °C, from the gravity table.
 *
 * @param extract °P, −4 to 30
 * @returns kg/m³
 */
export function wortDensity20(extract: number): number {
  return AIR + gravityOfExtract(extract) * (WATER_20 - AIR);
}

/**
 * Density of wort at any temperature: the gravity table at 20 °C, expanded as the sucrose density formula does.
 *
 * @param extract °P, −4 to 30
 * @param tC °C, 0 to 100
 * @returns kg/m³
 */
export function wortDensity(extract: number, tC: number): number {
  return expanded(extract, sucroseAt(tC));
}

function expanded(extract: number, sucrose: Sucrose): number {
  return wortDensity20(extract) * expansion(sucrose, extract / 100);
}

const TOLERANCE = 1e-11; // kg/m³

/**
 * Extract of the wort that has a given density at a given temperature; verified to 1e-11 kg/m³.
 *
 * @param density kg/m³
 * @param tC °C, 0 to 100
 * @returns °P
 * @throws Refusal "no-solution" if that wort would be outside −4 to 30 °P
 */
export function extractOfDensity(density: number, tC: number): number {
  const sucrose = sucroseAt(tC);
  const extract = secantTo(sucrose, density); // initial guess from the sucrose formula alone
  while (extract.mayContinue(extractRange)) {
    const residual = expanded(extract.x, sucrose) - density;
    if (Math.abs(residual) <= TOLERANCE) return extract.x;
    extract.next(residual);
  }
  return invert((p) => expanded(p, sucrose), extractRange, density, TOLERANCE);
}

/**
 * Extract of a wort from its density at 20 °C.
 *
 * @param density kg/m³
 * @returns °P
 */
export function extractOfDensity20(density: number): number {
  return extractOfGravity(gravityOfDensity(density));
}

/**
 * Ratio of the volumes of a wort at two temperatures.
 *
 * @param extract °P, −4 to 30
 * @param fromC first temperature, °C, 0 to 100
 * @param toC second temperature, °C, 0 to 100
 * @returns volume at `toC` over volume at `fromC`
 */
export function volumeRatio(extract: number, fromC: number, toC: number): number {
  checkRange(extractRange, extract);
  return expansion(sucroseAt(fromC), extract / 100) / expansion(sucroseAt(toC), extract / 100);
}
