import { massRange, volumeRange } from "../core/brewhouse/amounts.js";
import { extractMass } from "../core/brewhouse/extract-mass.js";
import { efficiency, extractShare, gristExtract, yieldRanges, yieldUnits } from "../core/brewhouse/grist.js";
import { answered, inRange, mustBeOneOf, platoOf } from "./answered.js";

/**
 * How maltsters state yield. PCT: percent of mass. LDK: litre-degrees per kilogram. PPG: points·gal/lb, one pound in a
 * US gallon of wort.
 */
export type MaltYieldUnit = "PCT" | "LDK" | "PPG";

/**
 * Mass of extract in a volume of wort.
 *
 * @param litres volume at 20 °C, L
 * @param sg specific gravity 20 °C/20 °C
 * @returns extract, kg
 * @throws RangeError for a volume below 0, and for a gravity below that of water or above 30 °P
 */
export function wortExtractKg(litres: number, sg: number): number {
  return answered({ litres, sg }, () =>
    extractMass(inRange(volumeRange, "litres", litres), platoOf("sg", sg)),
  );
}

/**
 * Extract that a fermentable could give if nothing were lost. Add up those of a grist.
 *
 * @param kg mass of the fermentable, kg
 * @param maltYield as the maltster states it, in maltYieldUnit: up to 100 %, 390 L·°/kg or 47 points·gal/lb
 * @param maltYieldUnit "PCT" by default
 * @returns extract, kg
 * @throws RangeError outside these ranges, and for an unknown unit
 */
export function maltExtractKg(kg: number, maltYield: number, maltYieldUnit: MaltYieldUnit = "PCT"): number {
  mustBeOneOf("maltYieldUnit", maltYieldUnit, yieldUnits);
  return answered({ kg, maltYield }, () => {
    inRange(massRange, "kg", kg);
    inRange(yieldRanges[maltYieldUnit], "maltYield", maltYield);
    return gristExtract([{ kilograms: kg, share: extractShare(maltYield, maltYieldUnit) }]);
  });
}

/**
 * Share of the grist's extract that is found in the wort.
 *
 * @param wortKg extract in the wort, kg: see `wortExtractKg`
 * @param gristKg extract that the grist could give, kg: see `maltExtractKg`
 * @returns %
 * @throws RangeError above 105 %, which is more than scatter of readings, and for a grist that holds nothing
 */
export function efficiencyPercent(wortKg: number, gristKg: number): number {
  return answered({ wortKg, gristKg }, () =>
    efficiency(inRange(massRange, "wortKg", wortKg), inRange(massRange, "gristKg", gristKg)),
  );
}
