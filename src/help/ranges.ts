// What each function covers, by the very ranges that its code refuses with. None is written down a second time.
import { plusMinusRange } from "../core/alcohol-uncertainty.js";
import { massRange, volumeRange } from "../core/amounts.js";
import { attenuableRange, attenuationRange } from "../core/attenuation.js";
import { originalRange } from "../core/beer.js";
import { wortRange } from "../core/extract-mass.js";
import { stillDays } from "../core/ferment-steady.js";
import { extractRange } from "../core/gravity.js";
import { yieldRanges } from "../core/grist.js";
import { sampleTemperature, scaleMarks, sgMarks } from "../core/hydrometer.js";
import type { Range } from "../core/range.js";
import { brixRange } from "../core/refractive-index.js";
import { wortFactorRange } from "../core/refractometer.js";
import { pairExtract } from "../core/refractometer-calibration.js";
import { refractometerTemperature } from "../core/refractometer-temperature.js";
import { wortTemperature } from "../core/sucrose-expansion.js";
import { temperatureWithin } from "../core/uncertainty-of-reading.js";
import { tolerances } from "../functions/fermentation-cells.js";
import { LEAST_PERCENT } from "../functions/percent.js";
import { originalBrix } from "../functions/refractometer-cells.js";

/** By parameter; a value may lie in any of several ranges. RESULT is what the function may come to. */
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
/** A share of 1 where percent are meant is refused, and so is what no fermentable gives. */
const fromLeast = (range: Range): Range => ({ ...range, min: LEAST_PERCENT });
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
  "PLUSMINUS.HYDROMETER": { ...hydrometer, temperature_uncertainty: [temperatureWithin] },
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
  "FERMENT.STEADY": { ...log, days: [stillDays], tolerance: [tolerances.SG] },
  "FERMENT.STAGES": log,
  INSTRUMENT: {},
  "CALIBRATE.FACTOR": {
    refractometer_readings: [brixRange],
    hydrometer_gravities: [pairExtract],
    [RESULT]: [wortFactorRange],
  },
  "CALIBRATE.SHIFT": { readings: [sgMarks], true_gravities: [extractRange] },
};
