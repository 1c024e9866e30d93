// Readings and beers of which the tests ask how sure they are.
import type { UncertainGravities } from "../../src/core/uncertainty/alcohol-uncertainty.js";
import { hydrometerModel } from "../../src/core/uncertainty/hydrometer-uncertainty.js";
import { plainHydrometer } from "../../src/core/instrument/hydrometer.js";
import {
  factorAsUsual,
  refractometerModel,
  type Original,
} from "../../src/core/uncertainty/refractometer-uncertainty.js";
import { plainRefractometer } from "../../src/core/instrument/refractometer.js";
import {
  plainHydrometerAccuracy,
  plainRefractometerAccuracy,
} from "../../src/core/uncertainty/reading-uncertainty.js";

/** By a plain glass hydrometer, with a thermometer within 1 °C. */
export const glass = (reading: number, tC: number, scale: "SG" | "P" = "SG") =>
  hydrometerModel(
    { reading, tC, hydrometer: plainHydrometer, accuracy: plainHydrometerAccuracy, temperatureHalfWidth: 1 },
    scale,
  );

/** By a plain refractometer, SG. */
export const prism = (reading: number, original?: Original) =>
  refractometerModel(
    {
      reading,
      refractometer: plainRefractometer,
      accuracy: plainRefractometerAccuracy,
      factor: factorAsUsual,
      original,
    },
    "SG",
  );

/** Both gravities equally uncertain. */
export const beer = (original: number, final: number, plusMinus = 0.001): UncertainGravities => ({
  original,
  final,
  originalPlusMinus: plusMinus,
  finalPlusMinus: plusMinus,
  scale: "SG",
});
