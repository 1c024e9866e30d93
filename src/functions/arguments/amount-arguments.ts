import { yieldRanges, yieldUnits, type YieldUnit } from "../../core/brewhouse/grist.js";
import { step, type Listener } from "../../core/steps.js";
import { kilogramsPer, litresPer, type MassUnit, type VolumeUnit } from "../../core/brewhouse/units.js";
import { measurement, unitOr, unitOrNone, type ArgumentSpec } from "../contract/argument.js";
import { gravity, readGravity, scale, type GravityScale } from "./gravity-argument.js";
import { MIN_PERCENT } from "./percent.js";

const volumeUnits = Object.keys(litresPer) as VolumeUnit[];
const massUnits = Object.keys(kilogramsPer) as MassUnit[];

const BARRELS = '"us_beer_bbl" (31 US gallons) or "uk_beer_bbl" (36 imperial gallons)';

const volumeWords = (usual: string): Parameters<typeof unitOrNone<VolumeUnit>>[0] => ({
  label: "volume unit",
  description: `Unit of the volume, as in the spreadsheet's CONVERT: "l", "hl", "gal", "uk_gal" …; or ${BARRELS}. ${usual}`,
  from: volumeUnits,
});

const massWords = (of: string, usual: string): Parameters<typeof unitOrNone<MassUnit>>[0] => ({
  label: "mass unit",
  description: `Unit of the ${of}, as in the spreadsheet's CONVERT: "kg", "g", "lbm", "ozm". ${usual}`,
  from: massUnits,
});

export const volumeUnit = unitOr<VolumeUnit>("l", volumeWords('If omitted, "l".'));

export const massUnit = unitOr<MassUnit>("kg", massWords("result", 'If omitted, "kg".'));

/** Units that default to those of the yield. */
export const volumeUnitByYield = unitOrNone<VolumeUnit>(volumeWords('If omitted, "l", or with PPG "gal".'));

export const massUnitByYield = (of: string): ArgumentSpec<MassUnit | undefined> =>
  unitOrNone<MassUnit>(massWords(of, 'If omitted, "kg", or with PPG "lbm".'));

export const yieldUnit = unitOr<YieldUnit>("PCT", {
  label: "yield unit",
  description: '"PCT" (% by mass, if omitted), "LDK" (litre-degrees per kg) or "PPG" (points·gal/lb).',
  from: yieldUnits,
});

/** A mass in the unit requested. @param kilograms */
export function inMassUnit(kilograms: number, unit: MassUnit, to: Listener | undefined): number {
  const mass = kilograms / kilogramsPer[unit];
  return unit === "kg" ? mass : step(to, "the same in the unit asked for", mass, unit);
}

/** Allowed yields in each unit, for descriptions. */
export const yieldSpan = `% (${MIN_PERCENT} to ${yieldRanges.PCT.max}), L·°/kg (up to ${yieldRanges.LDK.max}) or points·gal/lb (up to ${yieldRanges.PPG.max})`;

export const volume = measurement({
  label: "volume",
  description: "Volume of the wort, cooled to 20 °C (VOLUME.COOLED does it).",
});

export const wort = gravity("gravity", "Gravity of the wort: SG (1.048 or 1048), or °P (see scale).");

export const target = gravity("target", "Gravity wanted: SG (1.048 or 1048), or °P (see scale).");

export const wortScale = scale("How the gravity is written");

export const wortScales = scale("How both gravities are written");

/** Extract of a wort and of its target, °P. */
export const wortAndTarget = (
  {
    gravity,
    target,
    scale,
  }: { readonly gravity: number; readonly target: number; readonly scale: GravityScale },
  to: Listener | undefined,
): readonly [number, number] => [
  readGravity(gravity, scale, "gravity", to),
  readGravity(target, scale, "target", to),
];

export const YIELD =
  "PCT: percent of the mass as is. LDK: extract in 10 L of wort of SG 1 + LDK/10 000, from 1 kg. PPG: extract in a US " +
  "gallon of wort of SG 1 + PPG/1000, from 1 lb. ";

export const BALANCE =
  "Extract and water are balanced by mass, with the density of wort of NBS Circular C440, Table 114. ";

export const HOT =
  "Boiling wort scalds and boils over: keep the sample small, and measure cooled where you can.";
