// All wording of the workbook check: what is wrong, and what to do.
import type { FindingKind } from "./finding.js";

const MAX_VALUES = 3;

const named = (values: readonly string[]): string => {
  const some = [...new Set(values)];
  const rest = some.length - MAX_VALUES;
  return rest > 0 ? `${some.slice(0, MAX_VALUES).join(", ")} and ${rest} more` : some.join(", ");
};

const toCelsius = (f: number): string => (((f - 32) * 5) / 9).toFixed(0);
const toFahrenheit = (c: number): string => ((c * 9) / 5 + 32).toFixed(0);

type Sentence = (about: string, values: readonly string[]) => string;

const sentences: Readonly<Record<FindingKind, Sentence>> = {
  unbound: () =>
    "The spreadsheet program shows #NAME? here, or will: the formula was typed or changed while the add-in was not there. " +
    "Repair writes it anew.",
  "missing-instrument": (name) =>
    `No instrument of this workbook is called "${name}". Add it, or correct the name.`,
  "off-scale": (about, values) =>
    `Outside of the graduation of ${about}: ${named(values)}. A mistyped reading, or another instrument?`,
  "text-number": (_, values) =>
    `Text, not a number: ${named(values)}. Type it as a number, with the decimal sign that this spreadsheet program takes.`,
  error: (message) => message,
  "fahrenheit-like": (_, values) => {
    const [first = ""] = values;
    return `These look like °F where °C belongs: ${named(values)}. ${first} °F is ${toCelsius(Number(first))} °C. If the sample really was that hot, cool it before it goes near glass.`;
  },
  "celsius-like": (_, values) => {
    const [first = ""] = values;
    return `These look like °C where °F belongs: ${named(values)}. ${first} °F is ice; ${first} °C is ${toFahrenheit(Number(first))} °F.`;
  },
  unchecked: (reason) => reason,
  "mixed-gravities": (how, values) =>
    `Written ${how === "with" ? "with a point among others that have none" : "without the point among others that have one"}: ` +
    `${named(values)}. Gylesheet's functions read both alike; averages, charts and sorting do not.`,
  "unused-instrument": (name) => `No formula names the instrument "${name}".`,
  "protected-sheet": () =>
    "The sheet is protected: its formulas cannot be written anew, and may keep old results, until it is unprotected.",
};

/** @param values content of the cells */
export const findingSentence = (kind: FindingKind, about: string, values: readonly string[]): string =>
  sentences[kind](about, values);
