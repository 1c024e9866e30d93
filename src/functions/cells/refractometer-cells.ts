import { BALLING_TABARIE, beerByBoth, beerByRefraction, tellBeer } from "../../core/beer/beer.js";
import { extractOfGravity, gravityRange, TABLE_114 } from "../../core/liquid/gravity.js";
import { brixRange } from "../../core/liquid/refractive-index.js";
import type { Range } from "../../core/refusal.js";
import {
  brixByRefractometer,
  extractByRefractometer,
  plainRefractometer,
  type Refractometer,
} from "../../core/instrument/refractometer.js";
import type { Original } from "../../core/uncertainty/refractometer-uncertainty.js";
import { writtenSg } from "../../core/liquid/scales.js";
import { PROFILE, step, type Listener } from "../../core/steps.js";
import { celsius } from "../../core/liquid/temperature.js";
import { refractometerOf } from "../../instruments/as-core.js";
import type { RefractometerProfile } from "../../instruments/schema.js";
import { measurement, optionalNumber, readsZero, type Beside } from "../contract/argument.js";
import { CellError } from "../contract/cell-value.js";
import { elementwise } from "../contract/define.js";
import { finalGravity, readGravity, readSg, scale, writeGravity } from "../arguments/gravity-argument.js";
import { instrument, readInstrument } from "../arguments/instrument-argument.js";
import {
  mustCompensate,
  needsTemperature,
  originalNeedsGravity,
  originalUnclear,
} from "../contract/messages.js";

export const plainOr = (profile: RefractometerProfile | undefined): Refractometer =>
  profile ? refractometerOf(profile) : plainRefractometer;

/** Wort correction factor, reported with its source. */
function factorOf(profile: RefractometerProfile | undefined, to: Listener | undefined): number {
  const { wortFactor } = plainOr(profile);
  if (!profile) to?.warn({ kind: "customary-factor", factor: wortFactor });
  return step(
    to,
    "wort correction factor",
    wortFactor,
    "",
    profile ? PROFILE : "common practice, no standard",
  );
}
/** A reading in units of the instrument's scale; on an SG scale 1046 is read as 1.046. */
export const onOwnScale = (reading: number, { scale }: Pick<Refractometer, "scale">): number =>
  scale === "SG" ? readSg(reading, "reading", gravityRange) : reading;

/** Temperature of the prism, °C. @throws CellError if it is needed and missing */
export function prismCelsius(
  temperature: number | undefined,
  profile: RefractometerProfile | undefined,
): number | undefined {
  if (profile?.compensates === false && temperature === undefined)
    throw new CellError("#VALUE!", needsTemperature(profile.name));
  return temperature === undefined ? undefined : celsius(temperature, profile?.temperatureUnit ?? "C");
}

/** °Bx at 20 °C from a reading in the instrument's own units. */
function brixOfReading(
  reading: number,
  temperature: number | undefined,
  profile: RefractometerProfile | undefined,
  to?: Listener,
): number {
  const refractometer = plainOr(profile);
  const tC = prismCelsius(temperature, profile);
  return brixByRefractometer(onOwnScale(reading, refractometer), refractometer, tC, to);
}

/** A gravity, or a reading before fermentation; the two ranges do not overlap. */
export function readOriginal(original: number, profile: RefractometerProfile | undefined): Original {
  const sg = writtenSg(original);
  if (sg >= gravityRange.min && sg <= gravityRange.max) return { gravity: sg };
  if (!(original >= originalBrix.min && original <= originalBrix.max))
    throw new CellError("#VALUE!", originalUnclear(original));
  if (profile && !profile.compensates) throw new CellError("#VALUE!", originalNeedsGravity(profile.name));
  return { reading: onOwnScale(original, plainOr(profile)) };
}

/** Original extract, °P. */
function originalExtract(
  given: number,
  profile: RefractometerProfile | undefined,
  to: Listener | undefined,
): number {
  const original = readOriginal(given, profile);
  if ("gravity" in original)
    return step(to, "original extract", extractOfGravity(original.gravity), "°P", TABLE_114);
  const brix = brixOfReading(original.reading, undefined, profile);
  return step(to, "original extract", extractByRefractometer(brix, plainOr(profile).wortFactor), "°P");
}

/** A reading before fermentation. No wort is thinner than its lower end, and no gravity is as high. */
export const originalBrix: Range = { ...brixRange, min: 2 };

/** Water may show 0, and so may a beer of nothing but alcohol and water. */
function mayShowZero(beside: Beside): boolean {
  const named = beside("instrument");
  if (named instanceof CellError) return false;
  return readsZero(plainOr(readInstrument(named, "refractometer")).scale, beside("temperature"));
}

export const refractometerReading = measurement({
  label: "refractometer reading",
  description:
    "As read, °Bx (0 to 30), or in the units of the instrument. 0 counts beside a temperature, else as an empty cell.",
  zeroIsValue: mayShowZero,
});

export const prismTemperature = optionalNumber({
  label: "temperature",
  description:
    "Of the prism, 10 to 30 °C or in the unit of the instrument. Needed only if it does not compensate.",
});

export const namedRefractometer = instrument(
  "refractometer",
  "Name of a refractometer of this workbook. If omitted: compensates temperature, wort correction factor 1.04.",
);

const FACTOR =
  "Without an instrument the wort correction factor is 1.04, which is common practice and no standard: published " +
  "constants give 1.00 to 1.045. Find your own by reading several worts with hydrometer and refractometer: the factor is " +
  "the typical °Bx divided by °P, and belongs into the profile of your instrument. ";

const TEMPERATURE =
  "A reading without temperature compensation is referred to 20 °C by the international table of 1936, 10 to 30 °C. ";

const INDEX =
  "Refractive indices of extract (ICUMSA 1974, sucrose) and ethanol (CRC Handbook) add up, densities as Tabarié found, " +
  "extract and alcohol follow from Balling's mass balance. ";

export const REFRACTOMETER_WORT = elementwise(
  {
    name: "REFRACTOMETER.WORT",
    topic: "Correct a reading",
    question: "What is the gravity of this wort, by refractometer?",
    summary: "Gravity of wort before fermentation from a refractometer reading.",
    returns: 'Gravity as SG 20/20, or °P if scale is "P".',
    examples: [
      { formula: "GYLE.REFRACTOMETER.WORT(12.4)", says: "A compensating refractometer, factor 1.04." },
      {
        formula: 'GYLE.REFRACTOMETER.WORT(A2:A9,B2:B9,"Brass prism")',
        says: "An instrument of this workbook that needs the temperature.",
      },
    ],
    method: FACTOR + TEMPERATURE + "Only for wort: once yeast is at work, use REFRACTOMETER.BEER.",
    uncertainty: {
      by: "PLUSMINUS.REFRACTOMETER",
      from: ["reading", undefined, "temperature", "instrument", "scale"],
    },
    caution: "A drop of hot wort is enough to scald; let it cool on the prism before reading.",
  },
  {
    reading: refractometerReading,
    temperature: prismTemperature,
    instrument: namedRefractometer,
    scale: scale("How the result is written"),
  },
  ({ reading, temperature, instrument, scale }, to) => {
    const brix = brixOfReading(reading, temperature, instrument, to);
    return writeGravity(extractByRefractometer(brix, factorOf(instrument, to), to), scale, to);
  },
);

export const REFRACTOMETER_BEER = elementwise(
  {
    name: "REFRACTOMETER.BEER",
    topic: "Correct a reading",
    question: "What is the gravity of fermenting or finished beer, by refractometer?",
    summary: "Gravity of fermenting or finished beer from a refractometer reading and the original gravity.",
    returns: 'Gravity as a hydrometer would show it: SG 20/20, or °P if scale is "P".',
    examples: [
      { formula: "GYLE.REFRACTOMETER.BEER(6.4,1.048)", says: "The original gravity is known." },
      {
        formula: "GYLE.REFRACTOMETER.BEER(6.4,12.4)",
        says: "The same refractometer showed 12.4 °Bx before fermentation.",
      },
    ],
    method:
      INDEX +
      "Expect ±0.0016 with a hand instrument of ±0.2 °Bx, so take final values with a hydrometer. " +
      TEMPERATURE +
      FACTOR,
    uncertainty: {
      by: "PLUSMINUS.REFRACTOMETER",
      from: ["reading", "original", "temperature", "instrument", "scale"],
    },
    caution: "Do not decide from this alone that beer is finished and safe to bottle.",
  },
  {
    reading: refractometerReading,
    original: measurement({
      label: "original",
      description:
        "Original gravity (1.048 or 1048), or the °Bx that the same instrument showed before fermentation (2 to 30).",
    }),
    temperature: prismTemperature,
    instrument: namedRefractometer,
    scale: scale("How the result is written"),
  },
  ({ reading, original, temperature, instrument, scale }, to) => {
    const brix = brixOfReading(reading, temperature, instrument, to);
    const factor = factorOf(instrument, to);
    const beer = beerByRefraction(originalExtract(original, instrument, to), brix, factor);
    tellBeer(beer, ["abw", "realExtract"], to);
    const apparent = step(to, "apparent extract", extractOfGravity(beer.gravity), "°P", BALLING_TABARIE);
    return writeGravity(apparent, scale, to);
  },
);

export const ORIGINAL = elementwise(
  {
    name: "ORIGINAL",
    topic: "Alcohol and attenuation",
    question: "What was the original gravity, which nobody wrote down?",
    summary:
      "Original gravity of a finished beer that nobody recorded, from hydrometer and refractometer on one sample.",
    returns: 'Original gravity as SG 20/20, or °P if scale is "P".',
    examples: [
      {
        formula: "GYLE.ORIGINAL(1.012,6.4)",
        says: "Hydrometer 1.012 (corrected), refractometer 6.4 °Bx, same beer.",
      },
    ],
    method:
      INDEX +
      "It rests on the small difference of two readings: 0.1 °Bx moves the result by about 0.001, 0.001 in gravity by " +
      "about 0.0017, so with ordinary hand tools it is good to ±0.003. Let the sample lose its gas first. " +
      FACTOR,
    caution: "Too uncertain for a label or a duty return: there, the law and a licensed laboratory decide.",
  },
  {
    hydrometer_gravity: finalGravity(
      "hydrometer gravity",
      "True gravity of the beer by hydrometer, as SG or °P (see scale).",
    ),
    refractometer_reading: measurement({
      label: "refractometer reading",
      description:
        "Of the same beer, °Bx, or in the units of the instrument, which must compensate temperature.",
    }),
    instrument: namedRefractometer,
    scale: scale("How the hydrometer gravity and the result are written"),
  },
  ({ hydrometer_gravity, refractometer_reading, instrument, scale }, to) => {
    const apparent = readGravity(hydrometer_gravity, scale, "hydrometer gravity", to);
    if (instrument?.compensates === false) throw new CellError("#VALUE!", mustCompensate(instrument.name));
    const brix = brixOfReading(refractometer_reading, undefined, instrument, to);
    const beer = beerByBoth(apparent, brix, factorOf(instrument, to));
    tellBeer(beer, ["abw", "realExtract", "originalExtract"], to);
    return writeGravity(beer.originalExtract, scale, to);
  },
);
