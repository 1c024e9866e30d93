import { extractRange, gravitySlope } from "./gravity.js";
import { invert } from "../numeric/invert.js";
import { checkRange, type Range } from "../refusal.js";
import { WATER_20 } from "./water-density.js";
import { AIR, wortDensity20 } from "./wort-density.js";

// A weighed solution is the one known gravity that a kitchen can make: °P is by definition grams of sucrose in 100 g.
// Weights count as masses. Air buoyancy of sugar and water is neglected; it makes less than 0.01 °P (sugar of 1.59
// g/mL, water, weights of 8.0 g/mL).

/** Size of a solution: grams of water, total grams, or litres at 20 °C. */
export type SolutionSize =
  { readonly water: number } | { readonly total: number } | { readonly litres: number };

/** What to weigh, grams. */
export interface SugarSolution {
  readonly sugar: number;
  readonly water: number;
  readonly total: number;
}

/** The gravity table, for sugar alone. */
const solutionRange: Range = { ...extractRange, of: "strength of the sugar solution", min: 0 };

const gramsRange: Range = { of: "mass of the water or the solution", min: 1, max: 1e9, unit: "g" };
const litresRange: Range = { of: "volume of the solution", min: 0.001, max: 1e6, unit: "L" };

const TOLERANCE = 1e-9; // g/L

/** Sugar per litre at 20 °C. */
const perLitre = (extract: number): number => (extract / 100) * wortDensity20(extract);

/** Derivative of `perLitre`, per °P. */
const perLitreSlope = (extract: number): number =>
  (wortDensity20(extract) + extract * gravitySlope(extract) * (WATER_20 - AIR)) / 100;

const perLitreRange: Range = { of: "sugar in a litre", min: 0, max: perLitre(solutionRange.max), unit: "g" };

/** Refuses sizes that no scales or flask can hold. */
function checkSize(size: SolutionSize): void {
  if ("litres" in size) checkRange(litresRange, size.litres);
  else checkRange(gramsRange, "water" in size ? size.water : size.total);
}

/**
 * What to weigh for a solution of a given strength.
 *
 * @param extract °P, which is °Bx, 0 to 30
 * @throws Refusal outside that range, and for sizes under 1 g or 1 mL
 */
export function sugarSolution(extract: number, size: SolutionSize): SugarSolution {
  checkRange(solutionRange, extract);
  checkSize(size);
  const total =
    "total" in size
      ? size.total
      : "water" in size
        ? size.water / (1 - extract / 100)
        : size.litres * wortDensity20(extract);
  const sugar = (total * extract) / 100;
  return { sugar, water: total - sugar, total };
}

/**
 * Strength of a weighed solution: the inverse of `sugarSolution`.
 *
 * @param sugar grams
 * @returns °P
 * @throws Refusal above 30 °P, and for sizes under 1 g or 1 mL
 */
export function solutionStrength(sugar: number, size: SolutionSize): number {
  checkSize(size);
  if ("litres" in size) {
    checkRange(perLitreRange, sugar / size.litres);
    return invert(perLitre, solutionRange, sugar / size.litres, TOLERANCE);
  }
  const total = "total" in size ? size.total : size.water + sugar;
  const extract = (100 * sugar) / total;
  checkRange(solutionRange, extract);
  return extract;
}

/**
 * Sensitivity of the gravity to the mass of sugar.
 *
 * @param extract °P, 0 to 30
 * @returns SG per gram, at constant size
 */
export function gravityPerGram(extract: number, size: SolutionSize): number {
  const { total } = sugarSolution(extract, size);
  const strengthPerGram =
    "total" in size
      ? 100 / total
      : "water" in size
        ? (100 - extract) / total
        : 1 / (size.litres * perLitreSlope(extract));
  return gravitySlope(extract) * strengthPerGram;
}
