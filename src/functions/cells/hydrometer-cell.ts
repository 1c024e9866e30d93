import {
  extractByHydrometer,
  plainHydrometer,
  sgMarks,
  type Hydrometer,
} from "../../core/instrument/hydrometer.js";
import { celsius } from "../../core/liquid/temperature.js";
import { hydrometerOf } from "../../instruments/as-core.js";
import type { HydrometerProfile } from "../../instruments/schema.js";
import { companion, measurement, readsZero, type Beside } from "../contract/argument.js";
import type { Listener } from "../../core/steps.js";
import { CellError, type CellContent, type Result } from "../contract/cell-value.js";
import { asCellError, elementwise, isBlank, refuseError, valueOf } from "../contract/define.js";
import { readSg, scale, writeGravity } from "../arguments/gravity-argument.js";
import { instrument, readInstrument } from "../arguments/instrument-argument.js";
import { offGraduations } from "../contract/messages.js";

function checkGraduations(mark: number, { name, lowest, highest }: HydrometerProfile): void {
  if (mark < (lowest ?? -Infinity) || mark > (highest ?? Infinity))
    throw new CellError("#VALUE!", offGraduations(mark, name, lowest, highest));
}

/** Arguments of the core functions for a hydrometer reading: the mark, the temperature in °C, the instrument. */
export type OwnReading = readonly [mark: number, tC: number, hydrometer: Hydrometer];

/** Converts a reading in the instrument's own units to the arguments of the core. */
export function ownReading(
  reading: number,
  temperature: number,
  profile: HydrometerProfile | undefined,
): OwnReading {
  if (!profile) return [readSg(reading, "reading", sgMarks), temperature, plainHydrometer];
  const mark = profile.scale === "SG" ? readSg(reading, "reading", sgMarks) : reading;
  checkGraduations(mark, profile);
  return [mark, celsius(temperature, profile.temperatureUnit), hydrometerOf(profile)];
}

/** A °P or °Bx hydrometer may show 0 in finished beer. */
function mayShowZero(beside: Beside): boolean {
  const named = beside("instrument");
  if (named === undefined || named instanceof CellError) return false;
  return readsZero(readInstrument(named, "hydrometer")?.scale ?? "SG", beside("temperature"));
}

/** The arguments that go with a hydrometer reading. */
export const hydrometerArguments = {
  reading: measurement({
    label: "reading",
    description:
      "As read: SG (1.046 or 1046), or in the units of the instrument. 0 of °P or °Bx counts beside a temperature.",
    zeroIsValue: mayShowZero,
  }),
  temperature: companion({
    label: "sample temperature",
    description: "Of the sample, °C, 0 to 80; with an instrument, in the unit of its thermometer.",
    beside: "reading",
    small: "0.1",
    really: "the sample really was at 0°",
  }),
  instrument: instrument(
    "hydrometer",
    "Name of a hydrometer of this workbook. If omitted, an SG scale true at 20 °C.",
  ),
  scale: scale("How the result is written"),
};

function extractOf(
  reading: number,
  temperature: number,
  profile: HydrometerProfile | undefined,
  to: Listener | undefined,
): number {
  const [mark, tC, hydrometer] = ownReading(reading, temperature, profile);
  return extractByHydrometer(mark, tC, hydrometer, to);
}

/**
 * The result of HYDROMETER for three cells, before it is written as a gravity: extract, °P, or "" for a blank, or an
 * error.
 */
export function extractInPlace(
  reading: CellContent,
  temperature: CellContent,
  instrument: CellContent,
  to?: Listener,
): Result {
  const of = hydrometerArguments;
  try {
    refuseError(of.reading, reading);
    refuseError(of.temperature, temperature);
    refuseError(of.instrument, instrument);
    const beside: Beside = (name) => (name === "temperature" ? temperature : instrument);
    if (isBlank(of.reading, reading, beside)) return "";
    const mark = valueOf(of.reading, reading);
    return extractOf(mark, valueOf(of.temperature, temperature), valueOf(of.instrument, instrument), to);
  } catch (error) {
    return asCellError(error);
  }
}

export const HYDROMETER = elementwise(
  {
    name: "HYDROMETER",
    topic: "Correct a reading",
    question: "What is the true gravity behind this hydrometer reading?",
    summary: "True gravity from a glass hydrometer reading and the temperature of the sample.",
    returns: 'Gravity as SG 20/20, or °P if scale is "P".',
    examples: [
      { formula: "GYLE.HYDROMETER(1.046,27)", says: "A 20 °C hydrometer read in wort of 27 °C." },
      { formula: "GYLE.HYDROMETER(D4:D41,E4:E41)", says: "A whole column; empty lines stay empty." },
      {
        formula: 'GYLE.HYDROMETER(1046,80,"Old glass","P")',
        says: "An instrument of this workbook, in °F if its profile says so.",
      },
    ],
    method:
      "Floating balance: the instrument displaces its own mass at every temperature; its glass expands by 25e-6 per K (ISO " +
      "1768:1975), the wort as a sucrose solution does (ICUMSA form). Then the meniscus and the check points of the " +
      "instrument's profile. Without an instrument: SG scale, 20 °C, read at the level surface. Covered: 0 to 80 °C.",
    uncertainty: { by: "PLUSMINUS.HYDROMETER", from: ["reading", "temperature", "instrument", "scale"] },
    caution:
      "Hot wort scalds, and glass breaks in it. Cool the sample; a correction from 60 °C is worth less than a cool reading.",
  },
  hydrometerArguments,
  ({ reading, temperature, instrument, scale }, to) =>
    writeGravity(extractOf(reading, temperature, instrument, to), scale, to),
);
