import { yieldRanges, yieldUnits, type YieldUnit } from "../core/grist.js";
import { step, type Listener } from "../core/steps.js";
import { kilogramsPer, litresPer, type MassUnit, type VolumeUnit } from "../core/units.js";
import { choiceOr, measurement, type Argument } from "./argument.js";
import { gravity, readGravity } from "./gravity-argument.js";

const volumeUnits = Object.keys(litresPer) as VolumeUnit[];
const massUnits = Object.keys(kilogramsPer) as MassUnit[];

export const volumeUnit = choiceOr<VolumeUnit>("l", {
  label: "volume unit",
  description:
    'Unit of the volume, as in the spreadsheet\'s CONVERT: "l" (if omitted), "hl", "gal", "uk_gal" …',
  from: volumeUnits,
});

export const massUnit = (of: string): Argument<MassUnit> =>
  choiceOr<MassUnit>("kg", {
    label: "mass unit",
    description: `Unit of the ${of}, as in the spreadsheet's CONVERT: "kg" (if omitted), "g", "lbm", "ozm".`,
    from: massUnits,
  });

export const yieldUnit = choiceOr<YieldUnit>("PCT", {
  label: "yield unit",
  description: '"PCT" (% by mass, if omitted), "LDK" (litre-degrees per kg) or "PPG" (points·gal/lb).',
  from: yieldUnits,
});

/** A mass in the unit asked for. @param kilograms */
export function inMassUnit(kilograms: number, unit: MassUnit, to: Listener | undefined): number {
  const mass = kilograms / kilogramsPer[unit];
  return unit === "kg" ? mass : step(to, "the same in the unit asked for", mass, unit);
}

/** How high a yield may be in each unit, for descriptions. */
export const yieldSpan = `% (up to ${yieldRanges.PCT.max}), L·°/kg (up to ${yieldRanges.LDK.max}) or points·gal/lb (up to ${yieldRanges.PPG.max})`;

export const volume = measurement({
  label: "volume",
  description: "Volume of the wort, cooled to 20 °C (VOLUME.COOLED does it).",
});

export const wort = gravity("gravity", "Gravity of the wort: SG (1.048 or 1048).");

export const target = gravity("target", "Gravity wanted: SG (1.048 or 1048).");

/** Extract, °P, of a gravity given as SG. */
export const sg = (value: number, label: string, to?: Listener): number =>
  readGravity(value, "SG", label, to);

export const YIELD =
  "PCT: percent of the mass as is. LDK: extract in 10 L of wort of SG 1 + LDK/10 000, from 1 kg. PPG: extract in a US " +
  "gallon of wort of SG 1 + PPG/1000, from 1 lb. ";

export const BALANCE =
  "Extract and water are balanced by mass, with the density of wort of NBS Circular C440, Table 114. ";

export const HOT =
  "Boiling wort scalds and boils over: keep the sample small, and measure cooled where you can.";
