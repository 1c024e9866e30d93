// All wording that a cell can show. A message says what was given, what is allowed, and the likely cause.
import type { CheckPoint } from "../../core/instrument/check-point.js";
import type { Range, Reason } from "../../core/refusal.js";
import type { Warning } from "../../core/steps.js";
import type { Shape } from "./cell-value.js";
import { FIRST_DATE, isoTime } from "./log-time.js";

/** A number for a message: enough digits to recognise it, no rounding errors. */
export function shown(value: number): string {
  return Number.isFinite(value) ? String(Number(value.toPrecision(6))) : "not a number";
}

const rounded = (value: number, unit: string): number =>
  unit === "SG" ? Math.round(value * 1e4) / 1e4 : value;

const withUnit = (value: number, unit: string): string => behind(shown(rounded(value, unit)), unit);

const behind = (number: string, unit: string): string =>
  unit === "" || unit === "SG" ? number : `${number} ${unit}`;

/** A refused number, in full if rounding would make it look allowed. */
function refused(given: number, { min, max, unit }: Range): string {
  const look = Number(shown(rounded(given, unit)));
  return look >= min && look <= max ? behind(String(given), unit) : withUnit(given, unit);
}

const span = ({ min, max, unit }: Range): string =>
  unit === "SG"
    ? `${withUnit(min, unit)} to ${withUnit(max, unit)} as SG`
    : `${shown(min)} to ${withUnit(max, unit)}`;

/** Most wrong temperatures are right ones in the other unit. */
function fahrenheitHint({ unit, min, max }: Range, given: number): string {
  const celsius = ((given - 32) * 5) / 9;
  if (unit !== "°C" || !(celsius >= min && celsius <= max)) return "";
  return ` ${shown(given)} °F is ${celsius.toFixed(1)} °C.`;
}

/** A spreadsheet's date-time in readable form, or a number of days that is not a date. */
function shownTime(days: number): string {
  return days < FIRST_DATE ? `day ${shown(days)}` : isoTime(days);
}

/** The sentence for a refusal of the core. */
export function sentence(reason: Reason): string {
  switch (reason.kind) {
    case "out-of-range": {
      const { range, given } = reason;
      return `The ${range.of} is ${refused(given, range)}; allowed are ${span(range)}.${fahrenheitHint(range, given)}`;
    }
    case "no-solution": {
      const { of, min, max, unit } = reason.range;
      const end = reason.sought === "below" ? `below ${withUnit(min, unit)}` : `above ${withUnit(max, unit)}`;
      return `Corrected, the ${of} would lie ${end}; covered are ${span(reason.range)}. Check the reading, its unit and the temperature.`;
    }
    case "final-above-original":
      return `The final gravity (${withUnit(reason.final, "SG")}) is above the original (${withUnit(reason.original, "SG")}). Are they swapped?`;
    case "final-too-low":
      return `A final gravity of ${withUnit(reason.final, "SG")} is lower than a wort of ${withUnit(reason.original, "SG")} can reach with all its extract fermented. Check both readings.`;
    case "below-expected":
      return `The gravity (${withUnit(reason.gravity, "SG")}) is already below the expected final gravity (${withUnit(reason.expected, "SG")}), so how far it will go is not known. Check the reading, and expect a lower one.`;
    case "refraction-above-original":
      return `The refractometer shows ${shown(reason.reading)} °Bx, more than unfermented wort of ${withUnit(reason.original, "SG")} would. Check both, and the wort correction factor.`;
    case "readings-disagree":
      return `No beer has a gravity of ${withUnit(reason.gravity, "SG")} and shows ${shown(reason.reading)} °Bx. Check both readings, and that they belong together.`;
    case "duty-table-ends":
      return `${shown(reason.lost)} degrees of gravity were lost; the UK duty table ends at ${shown(reason.most)}.`;
    case "more-than-grist":
      return Number.isFinite(reason.efficiency)
        ? `The wort would hold ${shown(reason.efficiency)} % of the grist's extract; at most ${shown(reason.most)} % can be scatter of the readings. Check the units of volume, mass and yield.`
        : "The grist holds no extract, so there is nothing to take a share of.";
    case "target-not-above":
      return `The target (${withUnit(reason.target, "SG")}) is not above the wort (${withUnit(reason.gravity, "SG")}). To thin it, use DILUTE.`;
    case "target-not-below":
      return `The target (${withUnit(reason.target, "SG")}) is not below the wort (${withUnit(reason.gravity, "SG")}), or is water. To strengthen it, use BOIL.VOLUME or FORTIFY.`;
    case "volume-grows":
      return `The end volume (${shown(reason.end)}) is above the volume before (${shown(reason.volume)}). To thin wort, use DILUTE.`;
    case "addition-too-weak":
      return `An addition with ${shown(reason.addition)} % extract cannot bring wort to ${shown(reason.target)} °P.`;
    case "in-pair":
      return `Pair ${reason.pair + 1}: ${sentence(reason.because)}`;
    case "too-few-pairs":
      return `There ${reason.given === 1 ? "is 1 pair" : `are ${shown(reason.given)} pairs`}; at least ${shown(reason.needed)} must be there.`;
    case "too-far-off": {
      const { pair, most, unit } = reason;
      return `The reading is ${withUnit(pair.reading, unit)} where ${withUnit(pair.true, unit)} is true. A scale that is more than ${withUnit(most, unit)} off cannot be relied on; is one of the two, or the temperature, mistyped?`;
    }
    case "pairs-contradict": {
      const { one, other, unit } = reason;
      const says = (pair: CheckPoint): string =>
        `${withUnit(pair.reading, unit)} for ${withUnit(pair.true, unit)}`;
      return `Pairs ${one.place + 1} and ${other.place + 1} contradict each other: ${says(one)}, and ${says(other)}. Read both once more, or leave one out.`;
    }
    case "one-reading":
      return `All pairs have the same reading, ${shown(reason.reading)}; a line needs two that differ.`;
    case "outside-log":
      return `The time is ${shownTime(reason.at)}; the log goes from ${shownTime(reason.first)} to ${shownTime(reason.last)}.`;
    case "too-few-readings":
      return `The log has ${shown(reason.given)} ${reason.given === 1 ? "reading" : "readings"} to go by since it began or sugar was added; this takes ${shown(reason.needed)}. Repeated times count once.`;
    case "below-from-the-start":
      return `The log begins at ${withUnit(reason.begins, "SG")}, already no higher than ${withUnit(reason.target, "SG")}: when that was reached is not in it.`;
    case "no-fall-yet":
      return `Gravity has fallen by ${shown(Math.round(10 * reason.fall) / 10)} points so far; a forecast takes ${shown(reason.needed)}.`;
    case "no-curve":
      return "The readings do not follow the course of a fermentation, so there is no forecast.";
    case "not-slowing":
      return "The fall has not begun to slow, so nothing says yet where it will end. Ask again with later readings.";
    case "levels-off-above": {
      const within =
        reason.within <= 0.02 ? ` ± ${shown(Math.max(1e-4, Math.round(reason.within * 1e4) / 1e4))}` : "";
      return `By the readings so far gravity levels off near ${withUnit(reason.final, "SG")}${within}, and not below ${withUnit(reason.target, "SG")}.`;
    }
    case "forecast-vague":
      return reason.days > reason.length
        ? `That is farther ahead than the log is long (${shown(Math.round(reason.length * 10) / 10)} days). Ask again with later readings.`
        : "A forecast could be off by more than a day and more than half of the time until then. Ask again with later readings.";
  }
}

/** Longest text that a message shows in full, in characters. */
const LONGEST_QUOTED = 30;

/** Control characters, lone surrogates, and characters that change the direction of the following text. */
const UNFIT_TO_SHOW = /[\p{Cc}\p{Cs}\p{Bidi_Control}]/gu;

/** Quotes a cell's text: its beginning, on one line, without splitting a character. */
function quoted(text: string): string {
  const start = Array.from(text.slice(0, 2 * LONGEST_QUOTED))
    .slice(0, LONGEST_QUOTED)
    .join("");
  return `"${start.replace(UNFIT_TO_SHOW, " ")}${start === text ? "" : "…"}"`;
}

/**
 * Text where a number belongs: never guessed at, but with the likely cause.
 *
 * @param otherwise what to do if the text does not look like a number
 */
export function textNotNumber(
  label: string,
  text: string,
  otherwise = "Leave the cell empty if there is no value.",
): string {
  const start = `The ${label} is ${quoted(text)}: text, not a number.`;
  // Longer text is no mistyped number, and parsing it would take long.
  const trimmed = text.length > LONGEST_QUOTED ? "" : text.trim();
  if (/^[+-]?\d+[.]?\d*$/.test(trimmed))
    return `${start} Type ${trimmed} again into a cell that is not formatted as text.`;
  if (/^[+-]?\d+,\d+$/.test(trimmed))
    return `${start} If the comma is a decimal comma, type it the way this spreadsheet writes decimals.`;
  if (/^[+-]?[\d.,]+\s*\D+$/.test(trimmed)) return `${start} Type the number alone, without its unit.`;
  return `${start} ${otherwise}`;
}

export const notNumber = (label: string, given: boolean): string =>
  `The ${label} is ${given ? "TRUE" : "FALSE"}; a number is needed.`;

export const notText = (label: string): string => `The ${label} must be a text in quotes.`;

export const passedOn = (label: string): string =>
  `The ${label} is an error itself. Look at that cell first.`;

export const notAChoice = (label: string, given: string, choices: readonly string[]): string =>
  `The ${label} is ${quoted(given)}; allowed are ${choices.map((choice) => `"${choice}"`).join(", ")}.`;

export const emptyBeside = (label: string, beside: string): string =>
  `The ${label} is empty, but the ${beside} is there. It is needed: nothing is assumed.`;

export const neededBeside = (beside: string): string => `The ${beside} is worth nothing without it.`;

export const zeroOrEmpty = (label: string, beside: string, small: string, really: string): string =>
  `The ${label} beside the ${beside} is 0 or empty, which cannot be told apart here. If ${really}, write ${small}.`;

/** A 0 for an optional argument. @param wayOut the sentence that says what to write instead */
export const zeroOrLeftOut = (label: string, wayOut: string): string =>
  `The ${label} is 0 or an empty cell, which cannot be told apart here. ${wayOut}`;

/** A cell formatted as a percentage holds a share of 1. */
export function shareNotPercent(label: string, given: number): string {
  const percent = shown(100 * given);
  return `The ${label} is ${shown(given)}, but percent are meant here. ${percent} % in a cell is ${shown(given)}: write ${percent} or multiply by 100.`;
}

/** A yield below any that a maltster states: a percentage, or a gravity instead of its points. */
export function yieldTooSmall(given: number, { unit }: Range): string {
  const start = `The yield is ${withUnit(given, unit)}, less than any fermentable gives.`;
  return given > 1
    ? `${start} If that is a gravity, write its points: ${shown(1000 * (given - 1))}.`
    : `${start} If ${shown(100 * given)} % is meant, write ${shown(100 * given)} with "PCT" as yield unit.`;
}

export const unnamed = (label: string): string =>
  `The ${label} of this row is empty, but other rows name one. Name it in every row, or in none.`;

/** One of two units is named, and the default for the other would belong to another system. */
export const unitNeeded = (
  named: string,
  unit: string,
  leftOut: string,
  otherwise: string,
  suggested: readonly string[],
): string =>
  `The ${named} is "${unit}", but the ${leftOut} is left out and would be "${otherwise}". Write the ${leftOut} too, such as ${suggested.map((each) => `"${each}"`).join(" or ")}.`;

export const yieldsDisagree = (leftOut: string): string =>
  `The yield units differ from row to row and go with different units, but the ${leftOut} is left out. Write it too.`;

export function shapesDiffer(shapes: readonly Shape[]): string {
  const sizes = shapes.map(({ rows, columns }) => `${rows} × ${columns}`);
  return `The ranges have different shapes (rows × columns: ${[...new Set(sizes)].join(", ")}). Give ranges of one shape, single cells, or a row and a column.`;
}

export const needsColumns = "Give columns: one batch a row.";

export const inRow = (row: number, message: string): string => `Row ${row}: ${message}`;

export function notSg(label: string, given: number, range: Range): string {
  const start = `The ${label} is ${shown(given)}; as SG allowed are ${withUnit(range.min, "SG")} to ${withUnit(range.max, "SG")} (or ${shown(Math.round(range.min * 1000))} to ${shown(Math.round(range.max * 1000))}).`;
  if (given > 1.2 && given <= 30)
    return `${start} If it is °P, say so: "P" as scale, or CONVERT(${shown(given)},"P","SG").`;
  if (given > 30 && given < 200) return `${start} If it is points, use CONVERT(${shown(given)},"PTS","SG").`;
  return start;
}

export const noSuchInstrument = (given: string, names: readonly string[]): string =>
  names.length === 0
    ? `There is no instrument ${quoted(given)}: this workbook has none yet.`
    : `There is no instrument ${quoted(given)}. This workbook has ${names.slice(0, 6).map(quoted).join(", ")}${names.length > 6 ? ` and ${names.length - 6} more` : ""}.`;

export const wrongKind = (given: string, is: string, needed: string): string =>
  `${quoted(given)} is ${is}; ${needed} is needed here.`;

export const noSuchProperty = (given: string, is: string, property: string): string =>
  `${quoted(given)} is ${is}, which has no "${property}".`;

export const needsInstrument =
  "Name a floating hydrometer: without its calibration there is nothing to correct.";

export const instrumentsNotRead = (refusal: string | undefined): string =>
  refusal === undefined
    ? "The instruments of this workbook could not be read yet. Recalculate the cell; if this stays, open the Gylesheet pane."
    : `The instruments of this workbook cannot be read: ${refusal} The Gylesheet pane says what can be done.`;

export const offGraduations = (
  given: number,
  name: string,
  lowest: number | undefined,
  highest: number | undefined,
): string =>
  `The reading is ${shown(given)}; ${quoted(name)} is graduated ${lowest === undefined ? "" : `from ${shown(lowest)} `}${highest === undefined ? "" : `to ${shown(highest)}`}. Is it the right instrument, or is the other one of the pair meant?`.replace(
    " .",
    ".",
  );

export const originalNeedsGravity = (name: string): string =>
  `${quoted(name)} does not compensate temperature, so an original reading in °Bx cannot be put right here. Give the original gravity; REFRACTOMETER.WORT finds it.`;

export const needsTemperature = (name: string): string =>
  `${quoted(name)} does not compensate temperature: give that of the prism (0 counts as empty).`;

export const notFine = (name: string, lacks: string): string =>
  `The profile of ${quoted(name)} has ${lacks}. Enter one in the Gylesheet pane: how sure a reading is rests on it.`;

export const mustCompensate = (name: string): string =>
  `${quoted(name)} does not compensate temperature, and there is no temperature here to put its reading right. Refer the reading to 20 °C first, and leave the instrument out or name one that compensates.`;

export const originalUnclear = (given: number): string =>
  `The original is ${shown(given)}; allowed are a gravity (1 to 1.129, or 1000 to 1129) or the °Bx before fermentation (2 to 30).`;

export const notTime = (label: string, text: string): string =>
  `The ${label} is ${quoted(text)}: allowed are a date-time of the spreadsheet, or text such as 2026-03-01, 2026-03-01 18:30 or 2026-03-01T18:30:00+01:00.`;

export const timeOutside = (label: string, given: number): string =>
  `The ${label} is ${shown(given)}; allowed are date-times of the spreadsheet, or days counted from anywhere above 0.`;

export const dayZero = (label: string): string =>
  `The ${label} is 0 or empty beside a gravity, which cannot be told apart here. If days are counted and it really is day 0, write 0.001.`;

export const zonesMixed =
  "Some times say their zone, such as Z or +01:00, and others do not, so nobody can tell their order. Give all of them with a zone, or none.";

export const needsOneScale = "Give one scale for the whole log.";

export const notYet = "not yet";

export const unknownFailure =
  "This calculation failed inside Gylesheet. Please report the formula and its inputs.";

export const inCells = (count: number): string => `${shown(count)} cells`;

/** The sentence for a warning. */
export function warningSentence(warning: Warning): string {
  switch (warning.kind) {
    case "hot-sample":
      return `The sample was at ${shown(Math.round(warning.tC * 10) / 10)} °C. Let it cool and read again: the correction is worth less the hotter it is, hot wort scalds, and glass breaks in it.`;
    case "outside-checks":
      return `The reading lies outside the check points of this instrument (${shown(warning.from)} to ${shown(warning.to)}), so the correction of the nearest one is used.`;
    case "never-calibrated":
      return "This floating hydrometer was never compared with glass, so its reading stands as it is. Calibrate it in the pane.";
    case "outside-pairs":
      return `The reading lies outside the calibration pairs of this instrument (${shown(warning.from)} to ${shown(warning.to)}): there its line is only drawn on.`;
    case "customary-factor":
      return `No instrument is named, so the wort correction factor is the customary ${shown(warning.factor)}. Your own worts may differ by several percent; find your factor in the pane or with CALIBRATE.FACTOR.`;
    case "rule-of-thumb":
      return "This is a rule of thumb without a source; the default method rests on a mass balance.";
    case "more-than-all":
      return `More than all of the grist's extract is in the wort (${shown(warning.percent)} %). That can be scatter of the readings; check volumes, masses and yields.`;
  }
}
