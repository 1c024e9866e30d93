import { massRange } from "./amounts.js";
import { extractMass } from "./extract-mass.js";
import { extractOfGravity } from "../liquid/gravity.js";
import { checkRange, type Range, Refusal } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { kilogramsPer, litresPer, type MassUnit, type VolumeUnit } from "./units.js";

/**
 * How maltsters state yield. PCT: percent of mass. LDK: litre-degrees per kilogram, from a laboratory mash of one part
 * in ten. PPG: points·gal/lb, one pound in a US gallon of wort.
 */
export const yieldUnits = ["PCT", "LDK", "PPG"] as const;
export type YieldUnit = (typeof yieldUnits)[number];

/** Volume and mass units that belong to each unit of yield; a percentage has none, so it goes with the metric ones. */
export const unitsOfYield: Readonly<
  Record<YieldUnit, { readonly volume: VolumeUnit; readonly mass: MassUnit }>
> = {
  PCT: { volume: "l", mass: "kg" },
  LDK: { volume: "l", mass: "kg" },
  PPG: { volume: "gal", mass: "lbm" },
};

/** Up to pure sugar, with room for the rounding of printed lists. */
export const yieldRanges: Record<YieldUnit, Range> = {
  PCT: { of: "yield", min: 0, max: 100, unit: "%" },
  LDK: { of: "yield", min: 0, max: 390, unit: "L·°/kg" },
  PPG: { of: "yield", min: 0, max: 47, unit: "points·gal/lb" },
};

/** Litres of wort per kilogram in a laboratory mash. */
const LDK_LITRES = 10;

/**
 * Extract in a fermentable, as a share of its mass.
 *
 * @param yields in its unit: up to 100 %, 390 L·°/kg, 47 points·gal/lb
 * @returns kg of extract per kg
 */
export function extractShare(yields: number, unit: YieldUnit): number {
  checkRange(yieldRanges[unit], yields);
  switch (unit) {
    case "PCT":
      return yields / 100;
    case "LDK":
      return extractMass(LDK_LITRES, extractOfGravity(1 + yields / LDK_LITRES / 1000));
    case "PPG":
      return extractMass(litresPer.gal, extractOfGravity(1 + yields / 1000)) / kilogramsPer.lbm;
  }
}

/** One line of a grist. */
export interface Fermentable {
  readonly kilograms: number;
  /** kg of extract per kg, see `extractShare`. */
  readonly share: number;
}

/** Extract that a grist could give if nothing were lost, kg. */
export function gristExtract(grist: readonly Fermentable[], to?: Listener): number {
  let sum = 0;
  for (const { kilograms, share } of grist) {
    checkRange(massRange, kilograms);
    sum += kilograms * share;
  }
  return step(to, "extract that the grist could give", sum, "kg", "yields as the maltster states them");
}

/** Anything above this is more than scatter of the readings. */
const MAX_EFFICIENCY = 105; // %

/**
 * Share of the grist's extract that is found in the wort.
 *
 * @param found extract in the wort, kg
 * @param possible extract that the grist could give, kg
 * @param to listener for the steps
 * @returns %
 * @throws Refusal above 105 %, or if the grist holds nothing
 */
export function efficiency(found: number, possible: number, to?: Listener): number {
  const percent = (100 * found) / possible;
  if (!(percent <= MAX_EFFICIENCY))
    throw new Refusal({ kind: "more-than-grist", efficiency: percent, most: MAX_EFFICIENCY });
  if (percent > 100) to?.warn({ kind: "more-than-all", percent });
  return step(to, "share of it that is in the wort", percent, "%");
}
