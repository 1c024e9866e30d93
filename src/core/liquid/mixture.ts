import { ethanolDensity20, ethanolDensity20Slope } from "./ethanol-density.js";
import { gravitySlope, gravityUnchecked } from "./gravity.js";
import { ethanolIndex, ethanolIndexSlope, sucroseIndex, sucroseIndexSlope } from "./refractive-index.js";
import { solution } from "../numeric/invert.js";
import { Secant } from "../numeric/secant.js";
import type { Range } from "../refusal.js";
import { WATER_20 } from "./water-density.js";
import { AIR } from "./wort-density.js";

// Balling: 2.0665 g of extract give 1 g of ethanol, 0.9565 g of carbon dioxide and 0.11 g of yeast (AOAC 935.20,
// ASBC Beer-6, EBC 9.4).
export const EXTRACT_PER_ALCOHOL = 2.0665;
export const LOST_PER_ALCOHOL = 1.0665;

/** A quantity with its partial derivatives with respect to the two unknowns of a mixture. */
export interface Slopes {
  readonly value: number;
  readonly byAlcohol: number;
  readonly byExtract: number;
}

/** Water with dissolved ethanol and extract, 20 °C. */
export interface Mixture {
  /** First unknown: mass fraction of the plain ethanol-water mixture with the same grams of ethanol per litre. */
  readonly p: number;
  /** Second unknown: °P of the wort with the same grams of extract per litre. */
  readonly extract: number;
  /** Density, kg/m³. */
  readonly density: Slopes;
  /** Ethanol, kg/m³ of beer. */
  readonly alcohol: number;
  readonly alcoholSlope: number;
  /** Real extract, kg/m³ of beer. */
  readonly realExtract: number;
  readonly realExtractSlope: number;
}

const OIML_WATER = ethanolDensity20(0);

/** Density of plain ethanol-water, kg/m³, shifted to the density of water used by all our scales. */
const spiritDensity = (p: number): number => WATER_20 + ethanolDensity20(p) - OIML_WATER;

/** Density of wort, kg/m³, without the range check, since solvers step slightly past the table. */
const wortDensity = (extract: number): number => AIR + gravityUnchecked(extract) * (WATER_20 - AIR);

/**
 * A mixture from its unknowns. Densities add up as Tabarié found: at equal grams per volume, the gravity of a beer is
 * that of its alcohol plus that of its extract, minus 1.
 */
function mixture(p: number, extract: number): Mixture {
  const spirit = spiritDensity(p);
  const spiritSlope = ethanolDensity20Slope(p);
  const wort = wortDensity(extract);
  const wortSlope = gravitySlope(extract) * (WATER_20 - AIR);
  return {
    p,
    extract,
    density: { value: spirit + wort - WATER_20, byAlcohol: spiritSlope, byExtract: wortSlope },
    alcohol: p * spirit,
    alcoholSlope: spirit + p * spiritSlope,
    realExtract: (extract / 100) * wort,
    realExtractSlope: wort / 100 + (extract / 100) * wortSlope,
  };
}

/** Extract before fermentation, °P, by Balling's mass balance. */
export function originalOf(m: Mixture): Slopes {
  const mass = m.density.value + LOST_PER_ALCOHOL * m.alcohol;
  const value = (100 * (EXTRACT_PER_ALCOHOL * m.alcohol + m.realExtract)) / mass;
  const massSlope = m.density.byAlcohol + LOST_PER_ALCOHOL * m.alcoholSlope;
  return {
    value,
    byAlcohol: (100 * EXTRACT_PER_ALCOHOL * m.alcoholSlope - value * massSlope) / mass,
    byExtract: (100 * m.realExtractSlope - value * m.density.byExtract) / mass,
  };
}

/**
 * Refractive index; the contributions of alcohol and extract add up.
 *
 * @param factor wort correction factor: a refractometer shows this many times the true extract
 */
function indexOf(m: Mixture, factor: number): Slopes {
  const c = m.alcohol / 1000; // g/mL
  return {
    value: sucroseIndex(factor * m.extract) + ethanolIndex(c),
    byAlcohol: (ethanolIndexSlope(c) * m.alcoholSlope) / 1000,
    byExtract: sucroseIndexSlope(factor * m.extract) * factor,
  };
}

/** A value that a mixture must have, and its tolerance. */
export interface MixtureReading {
  readonly of: (m: Mixture) => Slopes;
  readonly target: number;
  readonly tolerance: number;
}

/** A given density, kg/m³. */
export const density = (target: number): MixtureReading => ({
  of: (m) => m.density,
  target,
  tolerance: 1e-8,
});

/** A given original extract, °P. */
export const original = (target: number): MixtureReading => ({ of: originalOf, target, tolerance: 1e-8 });

/** A given refractive index. */
export const index = (target: number, factor: number): MixtureReading => ({
  of: (m) => indexOf(m, factor),
  target,
  tolerance: 1e-12,
});

/** Initial guess. A close one saves steps; Newton's method also arrives from a distant one. */
export type MixtureGuess = Pick<Mixture, "p" | "extract">;

const MAX_STEPS = 20;

/**
 * The mixture that meets two conditions, by Newton's method in both unknowns.
 *
 * @returns the mixture, verified against both targets; undefined if there is none
 */
export function mixtureWith(a: MixtureReading, b: MixtureReading, start: MixtureGuess): Mixture | undefined {
  let m = mixture(start.p, start.extract);
  for (let step = 0; step < MAX_STEPS; step++) {
    const qa = a.of(m);
    const qb = b.of(m);
    const residualA = qa.value - a.target;
    const residualB = qb.value - b.target;
    if (Math.abs(residualA) <= a.tolerance && Math.abs(residualB) <= b.tolerance) return m;
    const determinant = qa.byAlcohol * qb.byExtract - qa.byExtract * qb.byAlcohol;
    const p = m.p - (residualA * qb.byExtract - residualB * qa.byExtract) / determinant;
    const extract = m.extract - (qa.byAlcohol * residualB - qb.byAlcohol * residualA) / determinant;
    m = mixture(p, extract);
  }
  return undefined;
}

/** What fermentation has made of a wort. */
export interface Fermented extends Pick<Mixture, "p" | "extract" | "alcohol" | "realExtract"> {
  /** Density that Tabarié's sum leaves for the alcohol, kg/m³. */
  readonly spirit: number;
}

/**
 * The mixture for a given remaining extract, by Balling's mass balance, which is linear in alcohol and real extract.
 */
function fermented(original: number, density: number, extract: number): Fermented {
  const wort = wortDensity(extract);
  const spirit = density + WATER_20 - wort;
  const realExtract = (extract / 100) * wort;
  const alcohol =
    (original * density - 100 * realExtract) / (100 * EXTRACT_PER_ALCOHOL - LOST_PER_ALCOHOL * original);
  return { p: alcohol / spirit, extract, alcohol, realExtract, spirit };
}

const DENSITY_TOLERANCE = 1e-10; // kg/m³
const DENSITY_SLOPE = 4.9; // kg/m³ per °P, about

/**
 * The mixture of a given density made from a given wort: Balling's mass balance gives the alcohol for each extract, and
 * Tabarié's density picks the extract.
 *
 * @param original extract before fermentation, °P
 * @param density kg/m³
 * @param range extracts to search, defined as in `Mixture`
 * @param guess an extract to begin at; a near one saves steps, a far one still converges
 * @returns the mixture, verified against the density; undefined if there is none
 */
export function fermentedTo(
  original: number,
  density: number,
  range: Pick<Range, "min" | "max">,
  guess: number,
): Fermented | undefined {
  const tooDense = (extract: number): number => {
    const { p, spirit } = fermented(original, density, extract);
    return spiritDensity(p) - spirit;
  };
  const near = new Secant(guess, DENSITY_SLOPE);
  while (near.mayContinue(range)) {
    const residual = tooDense(near.x);
    if (Math.abs(residual) <= DENSITY_TOLERANCE) return fermented(original, density, near.x);
    near.next(residual);
  }
  const extract = solution(tooDense, range, 0, DENSITY_TOLERANCE);
  return extract === undefined ? undefined : fermented(original, density, extract);
}
