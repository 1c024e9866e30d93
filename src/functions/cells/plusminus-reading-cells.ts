import { scaleMarks } from "../../core/instrument/hydrometer.js";
import { hydrometerModel } from "../../core/uncertainty/hydrometer-uncertainty.js";
import {
  factorAsFound,
  factorAsUsual,
  refractometerModel,
} from "../../core/uncertainty/refractometer-uncertainty.js";
import { celsiusDifference } from "../../core/liquid/temperature.js";
import {
  plainHydrometerAccuracy,
  plainRefractometerAccuracy,
  DEFAULT_TEMPERATURE_HALF_WIDTH,
  type ScaleAccuracy,
} from "../../core/uncertainty/reading-uncertainty.js";
import { budgetOf, tellBudget } from "../../core/uncertainty/uncertainty.js";
import { accuracyOf } from "../../instruments/as-core.js";
import type { HydrometerProfile, RefractometerProfile } from "../../instruments/schema.js";
import { optionalNumber } from "../contract/argument.js";
import { CellError } from "../contract/cell-value.js";
import { elementwise } from "../contract/define.js";
import { scale } from "../arguments/gravity-argument.js";
import { hydrometerArguments, ownReading } from "./hydrometer-cell.js";
import { notFine } from "../contract/messages.js";
import {
  namedRefractometer,
  onOwnScale,
  plainOr,
  prismCelsius,
  prismTemperature,
  readOriginal,
  refractometerReading,
} from "./refractometer-cells.js";

/** Accuracy of a named instrument. @throws CellError if its profile does not state it */
function accuracyIn(
  profile: HydrometerProfile | RefractometerProfile | undefined,
  otherwise: ScaleAccuracy,
): ScaleAccuracy {
  if (!profile) return otherwise;
  const found = accuracyOf(profile);
  if (found) return found;
  const lacks =
    profile.kind === "hydrometer"
      ? "neither a smallest division nor a maker's maximum error"
      : "no smallest division";
  throw new CellError("#VALUE!", notFine(profile.name, lacks));
}

/** Used by all PLUSMINUS functions. */
export const GUM =
  "Expanded uncertainty by the GUM (JCGM 100:2008), coverage factor 2: about 95 % of what may reasonably be true. Derivatives are " +
  "taken of the calculation itself. ";

const READ =
  "Reading: half the smallest division either way. Maker's error: a scale may be off by as much; of division and maker's error " +
  "in a profile, the one stands for the other that is missing, as most makers promise one division, and check points do not lessen it. ";

export const PLUSMINUS_HYDROMETER = elementwise(
  {
    name: "PLUSMINUS.HYDROMETER",
    topic: "How sure it is",
    question: "How sure is this hydrometer reading?",
    summary: "Expanded uncertainty (k = 2) of the gravity that HYDROMETER gives for the same reading.",
    returns: '±, in SG, or in °P if scale is "P".',
    examples: [
      {
        formula: "GYLE.PLUSMINUS.HYDROMETER(1.046,27)",
        says: "Divisions of 0.001, temperature within 1 °C: ±0.0014.",
      },
      {
        formula: 'GYLE.PLUSMINUS.HYDROMETER(D4:D41,E4:E41,"Old glass","SG",0.5)',
        says: "A whole column by an instrument of this workbook, temperatures within half a degree.",
      },
    ],
    method:
      GUM +
      READ +
      "Without an instrument: divisions of 0.001 SG (common practice, no source). Temperature: within 1 °C unless you say better (common " +
      "practice, no source). Temperature correction: what the floating balance is off the printed table, 0.015 to 0.105 °P, twice the " +
      "greatest above 60 °C. Surface of the liquid: 370 ppm of density in use (NIST SP 250-78, k = 2).",
    caution:
      "Foam, bubbles on the glass, a wrong meniscus or a warm sample that is still cooling are not in it.",
  },
  {
    ...hydrometerArguments,
    temperature_uncertainty: optionalNumber({
      label: "uncertainty of the temperature",
      description:
        "Within how many degrees the temperature is right, in its unit. If omitted, 1 °C (common practice).",
    }),
  },
  ({ reading, temperature, instrument, scale, temperature_uncertainty }, to) => {
    const [mark, tC, hydrometer] = ownReading(reading, temperature, instrument);
    const temperatureHalfWidth =
      temperature_uncertainty === undefined
        ? DEFAULT_TEMPERATURE_HALF_WIDTH
        : celsiusDifference(temperature_uncertainty, instrument?.temperatureUnit ?? "C");
    const accuracy = accuracyIn(instrument, plainHydrometerAccuracy);
    const model = hydrometerModel({ reading: mark, tC, hydrometer, accuracy, temperatureHalfWidth }, scale);
    return tellBudget(budgetOf(model), scaleMarks[scale].unit, to);
  },
);

export const PLUSMINUS_REFRACTOMETER = elementwise(
  {
    name: "PLUSMINUS.REFRACTOMETER",
    topic: "How sure it is",
    question: "How sure is this refractometer reading, of wort or of beer?",
    summary:
      "Expanded uncertainty (k = 2) of the gravity that REFRACTOMETER.WORT, or with an original REFRACTOMETER.BEER, gives.",
    returns: '±, in SG, or in °P if scale is "P".',
    examples: [
      { formula: "GYLE.PLUSMINUS.REFRACTOMETER(12.4)", says: "Wort by a plain hand instrument: ±0.0025." },
      {
        formula: "GYLE.PLUSMINUS.REFRACTOMETER(6.4,12.4)",
        says: "Beer whose wort showed 12.4 °Bx in the same instrument: ±0.002.",
      },
    ],
    method:
      GUM +
      READ +
      "Without an instrument: divisions of 0.2 °Bx (common practice, no source), and a wort correction factor of 1.04 that may be off by " +
      "0.04, as published constants go down to 1.00; a factor in a profile is taken as your own, ±0.015 (one standard deviation). The factor is " +
      "the same in wort and beer, errors of the scale are not. Temperature, where the instrument does not compensate: within 1 °C, " +
      "and 0.013 °Bx for the table. An original given as gravity: within 0.001. Model of fermenting beer: 0.24 °P, as far as it is off Šavel's " +
      "line of 1971.",
    caution: "Do not decide from this alone that beer is finished and may be bottled.",
  },
  {
    reading: refractometerReading,
    original: optionalNumber({
      label: "original",
      description:
        "For beer: original gravity (1.048 or 1048), or °Bx of the same instrument before fermentation (2 to 30). If omitted, it is wort.",
    }),
    temperature: prismTemperature,
    instrument: namedRefractometer,
    scale: scale("How the result is written"),
  },
  ({ reading, original, temperature, instrument, scale }, to) => {
    const refractometer = plainOr(instrument);
    const model = refractometerModel(
      {
        reading: onOwnScale(reading, refractometer),
        tC: prismCelsius(temperature, instrument),
        refractometer,
        accuracy: accuracyIn(instrument, plainRefractometerAccuracy),
        factor: instrument ? factorAsFound : factorAsUsual,
        original: original === undefined ? undefined : readOriginal(original, instrument),
      },
      scale,
    );
    return tellBudget(budgetOf(model), scaleMarks[scale].unit, to);
  },
);
