import { extractOfGravity, extractRange, gravityOfExtract } from "./gravity.js";
import { invert } from "../numeric/invert.js";
import { inPercent } from "../numeric/polynomial.js";
import { check } from "../refusal.js";
import { expansion, nearDensity, sucroseAt } from "./sucrose-expansion.js";
import { WATER_20, waterDensity } from "./water-density.js";

/** Air at 20 °C, kg/m³: the conventional value with which the gravity tables were weighed (NBS C457, p. 2). */
export const AIR = 1.2;

/**
 * Density of a liquid from its apparent gravity.
 *
 * @param gravity apparent specific gravity t/t_water
 * @param waterC temperature of the water that it is compared with, °C
 * @returns density in vacuo, kg/m³
 */
export function densityOfGravity(gravity: number, waterC = 20): number {
  return AIR + gravity * (waterDensity(waterC) - AIR);
}

/** The inverse of `densityOfGravity`: apparent gravity from kg/m³. */
export function gravityOfDensity(density: number, waterC = 20): number {
  return (density - AIR) / (waterDensity(waterC) - AIR);
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
  return wortDensity20(extract) * expansion(sucroseAt(tC), extract / 100);
}

const PROOF = 1e-11; // kg/m³

/**
 * Extract of the wort that has a given density at a given temperature; proved to 1e-11 kg/m³.
 *
 * @param density kg/m³
 * @param tC °C, 0 to 100
 * @returns °P
 * @throws Refusal "no-solution" if that wort would lie outside −4 to 30 °P
 */
export function extractOfDensity(density: number, tC: number): number {
  const sucrose = sucroseAt(tC);
  const near = inPercent(nearDensity(sucrose, density));
  return invert((p) => wortDensity20(p) * expansion(sucrose, p / 100), extractRange, density, PROOF, near);
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
 * Volume that wort takes at another temperature, for one volume at the first.
 *
 * @param extract °P, −4 to 30
 * @param fromC temperature of the volume, °C, 0 to 100
 * @param toC temperature that it is cooled or warmed to, °C, 0 to 100
 */
export function volumeRatio(extract: number, fromC: number, toC: number): number {
  check(extractRange, extract);
  return expansion(sucroseAt(fromC), extract / 100) / expansion(sucroseAt(toC), extract / 100);
}
