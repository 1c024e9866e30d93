import { eachPair } from "../../core/instrument/calibration-fit.js";
import { checkPoint } from "../../core/instrument/check-reading.js";
import { plainHydrometer, scaleMarks, sgMarks } from "../../core/instrument/hydrometer.js";
import { plainRefractometer } from "../../core/instrument/refractometer.js";
import { wortFactorOf } from "../../core/instrument/refractometer-calibration.js";
import { slippedScale } from "../../core/instrument/scale-calibration.js";
import { step } from "../../core/steps.js";
import { hydrometerOf, refractometerOf } from "../../instruments/as-core.js";
import { companion, measurement, type Beside } from "../contract/argument.js";
import { CellError } from "../contract/cell-value.js";
import { overLists } from "../contract/define.js";
import { readGravity, readSg, scale } from "../arguments/gravity-argument.js";
import { instrument } from "../arguments/instrument-argument.js";
import { mustCompensate, zeroOrEmpty } from "../contract/messages.js";
import { onOwnScale } from "./refractometer-cells.js";

const PAIRS =
  "It is what the pane finds under Calibrate, by the same rules; there, what is left over at each pair is shown too, and pairs " +
  "that stand out are named. A message counts pairs from the top, without empty lines. ";

export const CALIBRATE_FACTOR = overLists(
  {
    name: "CALIBRATE.FACTOR",
    topic: "Instruments",
    question: "What is the wort correction factor of my refractometer?",
    summary: "Wort correction factor from worts that were read by refractometer and by hydrometer.",
    returns: "The factor, such as 1.03: it belongs into the profile of the refractometer.",
    examples: [
      {
        formula: "GYLE.CALIBRATE.FACTOR(B2:B9,C2:C9)",
        says: "Eight worts before fermentation: °Bx beside true gravity.",
      },
      {
        formula: 'GYLE.CALIBRATE.FACTOR(B2:B9,C2:C9,"Pocket prism")',
        says: "What the instrument shows on water is taken off first.",
      },
    ],
    method:
      "The median of °Bx over °P, so that one misread pair does not move it. Refused: wort under 2 °P, a pair whose °Bx over °P is " +
      "outside 0.8 to 1.25, and a factor outside 0.9 to 1.1. Only unfermented wort serves, as alcohol bends light too. " +
      PAIRS,
  },
  ["refractometer_readings", "hydrometer_gravities", "instrument", "scale"],
  {
    instrument: instrument(
      "refractometer",
      "Name of a refractometer of this workbook that compensates temperature. If omitted: °Bx, true on water.",
    ),
    scale: scale("How the gravities are written"),
  },
  {
    refractometer_readings: measurement({
      label: "refractometer reading",
      description:
        "Readings of unfermented wort, °Bx, or in the units of the instrument; empty ones are passed over.",
    }),
    hydrometer_gravities: companion({
      label: "hydrometer gravity",
      description: "True gravity of each of these worts by hydrometer, as SG or °P (see scale).",
      beside: "refractometer reading",
      small: "0.01",
      really: "it really is 0 °P",
    }),
  },
  ({ instrument, scale }, lines, to) => {
    if (instrument?.compensates === false) throw new CellError("#VALUE!", mustCompensate(instrument.name));
    const refractometer = instrument ? refractometerOf(instrument) : plainRefractometer;
    const pairs = lines.map(({ refractometer_readings, hydrometer_gravities }) => ({
      reading: onOwnScale(refractometer_readings, refractometer),
      extract: readGravity(hydrometer_gravities, scale, "hydrometer gravity"),
    }));
    const { factor } = wortFactorOf(pairs, refractometer).numbers;
    step(to, "pairs", pairs.length, "");
    return step(to, "wort correction factor", factor, "", "median of °Bx over °P");
  },
);

/** Water reads 0 on a °P or °Bx scale, so only the true value beside it tells it from an empty line. */
const hasTruth = (beside: Beside): boolean => Boolean(beside("true_gravities"));

export const CALIBRATE_SHIFT = overLists(
  {
    name: "CALIBRATE.SHIFT",
    topic: "Instruments",
    question: "By how much has the scale of my hydrometer slipped?",
    summary: "Shift of a hydrometer's scale from readings in liquids of known gravity.",
    returns: "What to add to every reading, in units of the scale; negative if it reads high.",
    examples: [
      {
        formula: "GYLE.CALIBRATE.SHIFT(B2:B4,C2:C4)",
        says: "Three sugar solutions at 20 °C on an SG scale.",
      },
      {
        formula: 'GYLE.CALIBRATE.SHIFT(B2:B4,C2:C4,"Old glass","P")',
        says: "An instrument of this workbook; the solutions were weighed as °P.",
      },
    ],
    method:
      "The median of true − read, beside the meniscus allowance of the instrument; check points of its profile are left aside, as they " +
      "are what is being found. Read at the temperature at which the scale is true; readings at another one go through the pane, or, on a plain SG scale, through " +
      "HYDROMETER first. Refused: readings off the scale, a pair more than 0.015 SG (4 °P) apart, and two truths of one reading " +
      "that differ by more than 0.002 SG (0.5 °P): common practice, no source. " +
      PAIRS,
    caution:
      "A scale that is off by different amounts along its length needs check points, which the pane finds.",
  },
  ["readings", "true_gravities", "instrument", "scale"],
  {
    instrument: instrument(
      "hydrometer",
      "Name of a hydrometer of this workbook. If omitted, an SG scale true at 20 °C, read at the level surface.",
    ),
    scale: scale("How the true gravities are written"),
  },
  {
    readings: measurement({
      label: "reading",
      description:
        "As read at the calibration temperature: SG (1.046 or 1046), or in the units of the instrument; empty ones are passed over.",
      zeroIsValue: hasTruth,
    }),
    true_gravities: companion({
      label: "true gravity",
      description: "What is true of each of these liquids, as SG or °P (see scale).",
      beside: "reading",
      small: "0.01",
      really: "it really is 0 °P",
    }),
  },
  ({ instrument, scale }, lines, to) => {
    const hydrometer = instrument ? hydrometerOf(instrument) : plainHydrometer;
    const isSg = hydrometer.scale === "SG";
    const read = lines.filter(({ readings }) => readings !== 0); // on an SG scale, a 0 is an empty cell
    if (!isSg && read.length < lines.length)
      throw new CellError(
        "#VALUE!",
        zeroOrEmpty("reading", "true gravity", "0.01", "the hydrometer really shows 0"),
      );
    if (read.length === 0) return "";
    const own = read.map(({ readings, true_gravities }) => ({
      reading: isSg ? readSg(readings, "reading", sgMarks) : readings,
      extract: readGravity(true_gravities, scale, "true gravity"),
    }));
    const points = eachPair(own, ({ reading, extract }) =>
      checkPoint(reading, hydrometer.calibrationC, extract, hydrometer),
    );
    const graduated = { ...hydrometer, lowest: instrument?.lowest, highest: instrument?.highest };
    const { shift } = slippedScale(points, graduated).numbers;
    step(to, "pairs", points.length, "");
    return step(to, "shift of the scale", shift, scaleMarks[hydrometer.scale].unit, "median of true − read");
  },
);
