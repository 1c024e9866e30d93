import { invert } from "../numeric/invert.js";
import { secantTo, slope } from "../numeric/polynomial.js";
import { checkRange, type Range } from "../refusal.js";

// Apparent specific gravity 20 °C/20 °C (both weighed in air) against mass fraction of sucrose: NBS Circular C440
// (1942), Table 114, 0 to 30 %, printed to 5 decimals. No printed formula follows the table to its last digit at both
// ends (the usual cubic gives 1.00002 for water), so this is our own fit to the printed rows: a quintic through 1 at
// water, within 1.0e-5 of every row and not below the last. Of all such quintics it is the one that stays nearest to
// the sucrose density formula down to −4 %.
const fit = [1, 0.387982, 0.101194, 0.270653, -0.654916, 0.668957] as const;

/** Source of the relation. */
export const TABLE_114 = "NBS Circular C440, Table 114";

/** The printed table, continued smoothly below water for beer, which alcohol makes lighter. */
export const extractRange: Range = { of: "extract", min: -4, max: 30, unit: "°P" };

const TOLERANCE = 1e-12; // SG

/** Gravity without the range check, for solvers that step slightly past the ends. */
export function gravityUnchecked(extract: number): number {
  const w = extract / 100;
  return fit[0] + w * (fit[1] + w * (fit[2] + w * (fit[3] + w * (fit[4] + w * fit[5]))));
}

/** Derivative of gravity, per °P. */
export function gravitySlope(extract: number): number {
  return slope(fit, extract / 100) / 100;
}

/**
 * Gravity of a wort.
 *
 * @param extract °P (grams of extract per 100 g of wort), −4 to 30
 * @returns apparent specific gravity 20/20
 * @throws Refusal outside −4 to 30 °P, and for NaN
 */
export function gravityOfExtract(extract: number): number {
  checkRange(extractRange, extract);
  return gravityUnchecked(extract);
}

/** −4 to 30 °P as gravities. */
export const gravityRange: Range = {
  of: "gravity",
  min: gravityOfExtract(extractRange.min),
  max: gravityOfExtract(extractRange.max),
  unit: "SG",
};

/**
 * Extract of a wort from its gravity: the inverse of `gravityOfExtract`, verified to 1e-12.
 *
 * @param gravity apparent specific gravity 20/20, about 0.9846 to 1.1291
 * @returns °P
 * @throws Refusal outside that range, and for NaN
 */
export function extractOfGravity(gravity: number): number {
  checkRange(gravityRange, gravity);
  const extract = secantTo(fit, gravity);
  while (extract.mayContinue(extractRange)) {
    const residual = gravityUnchecked(extract.x) - gravity;
    if (Math.abs(residual) <= TOLERANCE) return extract.x;
    extract.next(residual);
  }
  return invert(gravityUnchecked, extractRange, gravity, TOLERANCE);
}
