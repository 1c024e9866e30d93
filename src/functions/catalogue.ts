import {
  ABV,
  ABW,
  ATTENUATION_APPARENT,
  ATTENUATION_REAL,
  ENERGY,
  EXTRACT_REAL,
  FINAL_EXPECTED,
} from "./cells/alcohol-cells.js";
import { CALIBRATE_FACTOR, CALIBRATE_SHIFT } from "./cells/calibrate-cells.js";
import { CO2_LATENT } from "./cells/co2-cell.js";
import { CONVERT } from "./cells/convert-cell.js";
import {
  FERMENT_RATE,
  FERMENT_REACHES,
  FERMENT_SMOOTH,
  FERMENT_STAGES,
  FERMENT_STEADY,
} from "./cells/fermentation-cells.js";
import { FLOATING } from "./cells/floating-cell.js";
import type { FunctionSpec } from "./contract/function-spec.js";
import { EFFICIENCY, EXTRACT_MASS, EXTRACT_POTENTIAL } from "./cells/grist-cells.js";
import { HYDROMETER } from "./cells/hydrometer-cell.js";
import { INSTRUMENT } from "./cells/instrument-cell.js";
import { BLEND, BOIL_GRAVITY, BOIL_VOLUME, DILUTE, FORTIFY } from "./cells/kettle-cells.js";
import { PLUSMINUS_ABV, PLUSMINUS_ATTENUATION } from "./cells/plusminus-alcohol-cells.js";
import { PLUSMINUS_HYDROMETER, PLUSMINUS_REFRACTOMETER } from "./cells/plusminus-reading-cells.js";
import { ORIGINAL, REFRACTOMETER_BEER, REFRACTOMETER_WORT } from "./cells/refractometer-cells.js";
import { SEASON } from "./cells/season-cell.js";
import { VOLUME_COOLED } from "./cells/volume-cell.js";

/** All cell functions, in the order of the lists. */
export const catalogue: readonly FunctionSpec[] = [
  HYDROMETER,
  REFRACTOMETER_WORT,
  REFRACTOMETER_BEER,
  FLOATING,
  CONVERT,
  SEASON,
  ABV,
  ABW,
  ATTENUATION_APPARENT,
  ATTENUATION_REAL,
  EXTRACT_REAL,
  ORIGINAL,
  FINAL_EXPECTED,
  ENERGY,
  CO2_LATENT,
  PLUSMINUS_HYDROMETER,
  PLUSMINUS_REFRACTOMETER,
  PLUSMINUS_ABV,
  PLUSMINUS_ATTENUATION,
  VOLUME_COOLED,
  EXTRACT_MASS,
  EXTRACT_POTENTIAL,
  EFFICIENCY,
  BOIL_GRAVITY,
  BOIL_VOLUME,
  DILUTE,
  FORTIFY,
  BLEND,
  FERMENT_SMOOTH,
  FERMENT_RATE,
  FERMENT_REACHES,
  FERMENT_STEADY,
  FERMENT_STAGES,
  INSTRUMENT,
  CALIBRATE_FACTOR,
  CALIBRATE_SHIFT,
];

/** @throws RangeError if there is no function of this name, given without the namespace */
export function specNamed(name: string): FunctionSpec {
  const spec = catalogue.find((candidate) => candidate.name === name.toUpperCase());
  if (!spec) throw new RangeError(`There is no function ${name}.`);
  return spec;
}
