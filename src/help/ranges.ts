// The ranges of each function: the same objects that its code checks against. None is written down a second time.
import { plusMinusRange } from "../core/uncertainty/alcohol-uncertainty.js";
import { massRange, volumeRange } from "../core/brewhouse/amounts.js";
import { attenuableRange, attenuationRange } from "../core/beer/attenuation.js";
import { originalRange } from "../core/beer/beer.js";
import { wortRange } from "../core/brewhouse/extract-mass.js";
import { steadyDays } from "../core/log/fermentation-steady.js";
import { extractRange } from "../core/liquid/gravity.js";
import { yieldRanges } from "../core/brewhouse/grist.js";
import { sampleTemperature, scaleMarks, sgMarks } from "../core/instrument/hydrometer.js";
import type { Range } from "../core/refusal.js";
import { brixRange } from "../core/liquid/refractive-index.js";
import { wortFactorRange } from "../core/instrument/refractometer.js";
import { pairExtract } from "../core/instrument/refractometer-calibration.js";
import { refractometerTemperature } from "../core/instrument/refractometer-temperature.js";
import { wortTemperature } from "../core/liquid/sucrose-expansion.js";
import { temperatureHalfWidthRange } from "../core/uncertainty/reading-uncertainty.js";
import { tolerances } from "../functions/cells/fermentation-cells.js";
import { MIN_PERCENT } from "../functions/arguments/percent.js";
import { originalBrix } from "../functions/cells/refractometer-cells.js";

/** By parameter; a value may be in any of several ranges. RESULT is the range of the result. */
export type Covered = Readonly<Record<string, readonly Range[]>>;

export const RESULT = "";

const hydrometer: Covered = { reading: [sgMarks], temperature: [sampleTemperature] };
const prism: Covered = { reading: [brixRange], temperature: [refractometerTemperature] };
const beer: Covered = { original: [originalRange], final: [extractRange] };
const attenuable: Covered = { original: [attenuableRange], final: [extractRange] };
const uncertain: Covered = {
  original_plusminus: [{ ...plusMinusRange.SG, of: "uncertainty" }],
  final_plusminus: [{ ...plusMinusRange.SG, of: "uncertainty" }],
};
const wort: Covered = { volume: [volumeRange], gravity: [wortRange] };
/** A share of 1 instead of a percentage is refused, and so is a yield below that of any fermentable. */
const fromLeast = (range: Range): Range => ({ ...range, min: MIN_PERCENT });
const yields = Object.values(yieldRanges).map(fromLeast);
const log: Covered = { gravities: [scaleMarks.SG] };
const gravity: Covered = { [RESULT]: [extractRange] };

/** By function. */
export const covered: Readonly<Record<string, Covered>> = {
  HYDROMETER: { ...hydrometer, ...gravity },
  "REFRACTOMETER.WORT": { ...prism, ...gravity },
  "REFRACTOMETER.BEER": { ...prism, original: [originalRange, originalBrix], ...gravity },
  FLOATING: { reading: [sgMarks], ...gravity },
  CONVERT: { value: [extractRange], ...gravity },
  SEASON: {
    original_readings: [sgMarks],
    original_temperatures: [sampleTemperature],
    final_readings: [sgMarks],
    final_temperatures: [sampleTemperature],
  },
  ABV: beer,
  ABW: beer,
  "ATTENUATION.APPARENT": attenuable,
  "ATTENUATION.REAL": attenuable,
  "EXTRACT.REAL": beer,
  ORIGINAL: {
    hydrometer_gravity: [extractRange],
    refractometer_reading: [brixRange],
    [RESULT]: [originalRange],
  },
  "FINAL.EXPECTED": { original: [originalRange], attenuation: [fromLeast(attenuationRange)] },
  ENERGY: { ...beer, millilitres: [volumeRange] },
  "CO2.LATENT": { gravity: [extractRange], expected_final: [extractRange], original: [originalRange] },
  "PLUSMINUS.HYDROMETER": { ...hydrometer, temperature_uncertainty: [temperatureHalfWidthRange] },
  "PLUSMINUS.REFRACTOMETER": { ...prism, original: [originalRange, originalBrix] },
  "PLUSMINUS.ABV": { ...beer, ...uncertain },
  "PLUSMINUS.ATTENUATION": { ...attenuable, ...uncertain },
  "VOLUME.COOLED": { volume: [volumeRange], temperature: [wortTemperature], to: [wortTemperature] },
  "EXTRACT.MASS": wort,
  "EXTRACT.POTENTIAL": { amounts: [massRange], yields },
  EFFICIENCY: { ...wort, amounts: [massRange], yields },
  "BOIL.GRAVITY": { ...wort, end_volume: [volumeRange], [RESULT]: [wortRange] },
  "BOIL.VOLUME": { ...wort, target: [wortRange] },
  DILUTE: { ...wort, target: [wortRange] },
  FORTIFY: { ...wort, target: [wortRange], yield: yields },
  BLEND: { volumes: [volumeRange], gravities: [wortRange] },
  "FERMENT.SMOOTH": log,
  "FERMENT.RATE": log,
  "FERMENT.REACHES": { ...log, target: [extractRange] },
  "FERMENT.STEADY": { ...log, days: [steadyDays], tolerance: [tolerances.SG] },
  "FERMENT.STAGES": log,
  INSTRUMENT: {},
  "CALIBRATE.FACTOR": {
    refractometer_readings: [brixRange],
    hydrometer_gravities: [pairExtract],
    [RESULT]: [wortFactorRange],
  },
  "CALIBRATE.SHIFT": { readings: [sgMarks], true_gravities: [extractRange] },
};
