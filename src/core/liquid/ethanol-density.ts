import { A, B, C } from "./ethanol-density-coefficients.js";
import { polynomial, slope } from "../numeric/polynomial.js";
import { checkRange, type Range } from "../refusal.js";

const ethanolFraction: Range = { of: "mass fraction of ethanol", min: 0, max: 1, unit: "" };
const ethanolTemperature: Range = { of: "temperature of the mixture", min: -20, max: 40, unit: "°C" };

/**
 * Density of an ethanol-water mixture, OIML R 22.
 *
 * @param p mass fraction of ethanol, 0 to 1
 * @param tC °C, −20 to 40
 * @returns kg/m³
 * @throws Refusal outside these ranges
 */
export function ethanolDensity(p: number, tC: number): number {
  checkRange(ethanolFraction, p);
  checkRange(ethanolTemperature, tC);
  const t = tC - 20;
  const mixed = C.map((row) => polynomial([0, ...row], p));
  return polynomial(A, p) + polynomial([0, ...B], t) + polynomial([0, ...mixed], t);
}

/** Density at 20 °C, kg/m³, without the range check: a solver may step just below zero alcohol. */
export function ethanolDensity20(p: number): number {
  return polynomial(A, p);
}

/** Derivative of `ethanolDensity20` with respect to p, kg/m³. */
export function ethanolDensity20Slope(p: number): number {
  return slope(A, p);
}

/** Density of pure ethanol at 20 °C, kg/m³, for converting grams of alcohol to % vol. */
export const ETHANOL_20 = ethanolDensity(1, 20);
