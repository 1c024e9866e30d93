// Readings and beers of which the tests ask how sure they are.
import type { UncertainGravities } from "../../src/core/alcohol-uncertainty.js";
import { hydrometerModel } from "../../src/core/hydrometer-uncertainty.js";
import { plainHydrometer } from "../../src/core/hydrometer.js";
import {
  factorAsUsual,
  refractometerModel,
  type Original,
} from "../../src/core/refractometer-uncertainty.js";
import { plainRefractometer } from "../../src/core/refractometer.js";
import {
  plainHydrometerFineness,
  plainRefractometerFineness,
} from "../../src/core/uncertainty-of-reading.js";

/** By a plain glass hydrometer, with a thermometer within 1 °C. */
export const glass = (reading: number, tC: number, scale: "SG" | "P" = "SG") =>
  hydrometerModel(
    { reading, tC, hydrometer: plainHydrometer, fineness: plainHydrometerFineness, temperatureWithin: 1 },
    scale,
  );

/** By a plain refractometer, SG. */
export const prism = (reading: number, original?: Original) =>
  refractometerModel(
    {
      reading,
      refractometer: plainRefractometer,
      fineness: plainRefractometerFineness,
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
