import { FormulaError, formulaErrors, finite, type Scalar } from "../values.js";
import { NotHere } from "./argument.js";

/** Converts a value to what a parameter takes, or to the error that becomes the result of the whole call. */
export type Converter<T> = (value: Scalar | undefined) => T | FormulaError;

const plainNumber = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?(%?)$/i;

/**
 * Reads text as the number it spells. Digits with a point mean the same in most of Excel's languages; dates, currency
 * and digit grouping do not, so these are not read.
 *
 * @throws NotHere for text that may be one of those
 */
export function numberIn(text: string): number | FormulaError {
  const solid = text.trim();
  const [, percent] = plainNumber.exec(solid) ?? [];
  if (percent !== undefined) return finite(parseFloat(solid) / (percent === "" ? 1 : 100));
  if (/\d/.test(solid) && /^[\d\s.,:/\-+%$€£¥()a-z]*$/i.test(solid) && mayBeNumber(solid))
    throw new NotHere(`whether the text "${text}" is a number depends on the language of Excel`);
  return formulaErrors.value;
}

/**
 * Dates, times, fractions, amounts: digits with separators, and at most the name of a month or AM and PM among them.
 */
function mayBeNumber(text: string): boolean {
  const words = text.match(/[a-z]+/gi) ?? [];
  const months = /^(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|mai|okt|dez|am|pm|a|p|e)[a-z]*$/i;
  return words.every((word) => months.test(word));
}

export const number: Converter<number> = (value) => {
  if (value instanceof FormulaError) return value;
  if (typeof value === "string") return numberIn(value);
  return Number(value ?? 0);
};

/**
 * A number, but not a logical value: functions that once came with an Excel add-in refuse those, others accept them.
 *
 * @throws NotHere for TRUE and FALSE
 */
export const strictNumber: Converter<number> = (value) => {
  if (typeof value === "boolean") throw new NotHere("it takes TRUE or FALSE for a number");
  return number(value);
};

export const strictWhole: Converter<number> = (value) => {
  const read = strictNumber(value);
  return read instanceof FormulaError ? read : Math.trunc(read);
};

/** A number truncated to an integer. */
export const whole: Converter<number> = (value) => {
  const read = number(value);
  return read instanceof FormulaError ? read : Math.trunc(read);
};

export const text: Converter<string> = (value) => {
  if (value instanceof FormulaError) return value;
  if (typeof value === "number") return numberText(value);
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return value ?? "";
};

export const logical: Converter<boolean> = (value) => {
  if (value instanceof FormulaError) return value;
  if (typeof value !== "string") return Boolean(value);
  return truthIn(value) ?? formulaErrors.value;
};

/** Any value except an error. */
export const scalar: Converter<Exclude<Scalar, FormulaError>> = (value) => value ?? null;

/** Any value, errors included. */
export const any = (value: Scalar | undefined): Scalar => value ?? null;

/** "TRUE" and "FALSE" as text, in any case; undefined for other text. */
export function truthIn(value: string): boolean | undefined {
  const letters = value.toUpperCase();
  return letters === "TRUE" ? true : letters === "FALSE" ? false : undefined;
}

/** Uses a default if the argument is omitted. */
export function optional<T>(convert: Converter<T>, otherwise: T): Converter<T> {
  return (value) => (value === undefined ? otherwise : convert(value));
}

/**
 * A number as concatenated to text: 15 digits, as in Excel's General format.
 *
 * @throws NotHere for numbers so small that programs write them differently
 */
function numberText(value: number): string {
  const rounded = Number(value.toPrecision(15));
  const size = Math.abs(rounded);
  if (size === 0) return "0";
  if (size < 1e-4) throw new NotHere("how so small a number is written as text depends on the program");
  if (size < 1e20) return plainDigits(rounded);
  const [mantissa = "", exponent = ""] = rounded.toExponential().split("e");
  return `${mantissa}E${exponent.replace(/^([+-])(\d)$/, "$10$2")}`;
}

function plainDigits(value: number): string {
  const digits = String(value);
  return digits.includes("e") ? BigInt(value).toString() : digits;
}
