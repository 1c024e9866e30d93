import { polynomial, slope } from "../numeric/polynomial.js";
import type { Range } from "../refusal.js";

/** Range covered by the sources of the index. */
export const brixRange: Range = { of: "refractometer reading", min: 0, max: 30, unit: "°Bx" };

// Sodium line (589 nm), air, 20.0 °C. Cubic through the ICUMSA 1974 index of sucrose, 0 to 30 % by mass, to 6e-6. The
// 5-decimal column is from memory, not from print; it agrees with the 4-decimal CRC Handbook (102nd ed.) to 6e-5.
const sucrose = [1.33299, 1.42706862e-3, 5.44589843e-6, 1.65124751e-8];

/** Index of water on this scale. */
export const WATER_INDEX = 1.33299;

/** Refractive index of a sucrose solution at 20 °C. */
export function sucroseIndex(brix: number): number {
  return polynomial(sucrose, brix);
}

/** Derivative of `sucroseIndex`, per °Bx. */
export function sucroseIndexSlope(brix: number): number {
  return slope(sucrose, brix);
}

// Increase in the index of water, by grams of ethanol per mL of liquid: fitted to the CRC Handbook (102nd ed.),
// Concentrative Properties of Aqueous Solutions, 0.5 to 20 % by mass, to the rounding of its 4 decimals.
const ethanol = [0, 0.05520848, 0.14457613, -0.30159177];

/** Contribution of ethanol to the refractive index, for c in g/mL. */
export function ethanolIndex(c: number): number {
  return polynomial(ethanol, c);
}

/** Derivative of `ethanolIndex`, per g/mL. */
export function ethanolIndexSlope(c: number): number {
  return slope(ethanol, c);
}
