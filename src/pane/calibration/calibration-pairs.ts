// Reads typed pairs as numbers.
import { extractFrom, extractTo, writtenSg } from "../../core/liquid/scales.js";
import { sampleTemperature } from "../../core/instrument/hydrometer.js";
import { checkRange, type Reason, Refusal } from "../../core/refusal.js";
import { celsius } from "../../core/liquid/temperature.js";
import type { Profile } from "../../instruments/schema.js";
import { numberOf } from "../parts/number-text.js";

/** Columns that a pair can have, in the order in which they are taken from cells. */
export const columns = ["reading", "temperature", "strength"] as const;
export type Column = (typeof columns)[number];

/** Scale in which true strengths are typed. */
export type StrengthScale = "SG" | "P";

export interface TypedPair extends Readonly<Record<Column, string>> {
  /** Unique as long as it is on the screen. */
  readonly id: number;
}

/** Everything that was typed about the pairs. */
export interface Typed {
  readonly strengthScale: StrengthScale;
  /** Typed once for all pairs without a temperature of their own. */
  readonly temperature: string;
  readonly rows: readonly TypedPair[];
}

let lastId = 0;

/** A new pair with a unique id. */
export function typedPair(typed: Partial<Record<Column, string>> = {}): TypedPair {
  lastId += 1;
  return { reading: "", temperature: "", strength: "", ...typed, id: lastId };
}

/**
 * A strength as it would be typed, with more decimals than anyone can read.
 *
 * @param extract °P
 */
export const strengthText = (extract: number, scale: StrengthScale): string =>
  String(Number(extractTo(extract, scale).toFixed(scale === "SG" ? 5 : 3)));

/** A pair in numbers. */
export interface Pair {
  /** As read, in units of the scale. */
  readonly reading: number;
  /** °C; undefined if the method needs none. */
  readonly tC: number | undefined;
  /** °P; 0 if the method needs none. */
  readonly extract: number;
}

/** How to read typed pairs. */
interface Reading {
  readonly profile: Profile;
  /** Columns of a pair. */
  readonly columns: readonly Column[];
  readonly typed: Typed;
  readonly sentence: (reason: Reason) => string;
}

/** Errors by field; the key is the pair's id and the column. */
export type PairErrors = ReadonlyMap<string, string>;
export const fieldKey = (id: number, column: Column): string => `pair-${id}-${column}`;

const notANumber = (text: string): string =>
  text === "" ? "This is needed." : `"${text.slice(0, 30)}" is not a number. Write it without a unit.`;

export const isBlankPair = (pair: TypedPair): boolean =>
  columns.every((column) => pair[column].trim() === "");

/** The number in a field, or a sentence that says what is wrong with it. */
function attempt(
  text: string,
  sentence: Reading["sentence"],
  of: (number: number) => number,
): number | string {
  const number = numberOf(text);
  if (number === undefined) return notANumber(text.trim());
  try {
    return of(number);
  } catch (error) {
    if (error instanceof Refusal) return sentence(error.reason);
    throw error;
  }
}

function fieldOf(typed: TypedPair, column: Column, how: Reading): number | string {
  const { profile, sentence } = how;
  const { strengthScale, temperature } = how.typed;
  const text = typed[column];
  switch (column) {
    case "reading":
      return attempt(text, sentence, (number) => (profile.scale === "SG" ? writtenSg(number) : number));
    case "strength":
      return attempt(text, sentence, (number) =>
        extractFrom(strengthScale === "SG" ? writtenSg(number) : number, strengthScale),
      );
    case "temperature":
      return attempt(text.trim() === "" ? temperature : text, sentence, (number) => {
        const tC = celsius(number, profile.kind === "floating" ? "C" : profile.temperatureUnit);
        checkRange(sampleTemperature, tC);
        return tC;
      });
  }
}

/** The pairs as numbers, with the rows they came from, or the errors if there are any. Blank rows are ignored. */
export function readPairs(how: Reading): {
  readonly pairs: readonly Pair[];
  readonly from: readonly TypedPair[];
  readonly errors: PairErrors;
} {
  const errors = new Map<string, string>();
  const from = how.typed.rows.filter((row) => !isBlankPair(row));
  const pairs = from.map((row): Pair => {
    const read = (column: Column, otherwise: number): number => {
      if (!how.columns.includes(column)) return otherwise;
      const field = fieldOf(row, column, how);
      if (typeof field === "number") return field;
      errors.set(fieldKey(row.id, column), field);
      return NaN;
    };
    const tC = read("temperature", NaN);
    return {
      reading: read("reading", NaN),
      tC: Number.isNaN(tC) ? undefined : tC,
      extract: read("strength", 0),
    };
  });
  return { pairs, from, errors };
}
