import { format as inFormat } from "numfmt";
import { FormulaError, type Scalar } from "../values.js";
import { NotHere } from "./argument.js";
import { any, number, text } from "./convert.js";
import { type NativeFunction, ofValues } from "./define.js";

/**
 * Digits with a point, groups, percent, exponent, sections and literal text: written alike by every program in one
 * language.
 */
const ofNumbers = /^(?:[0#?.,%;()\- ]|E[+-]0+|"[^"]*")+$/i;

/** Year, month, day, hour, minute and second in digits; hours in brackets continue past a day. */
const ofDays = /^(?:y+|m{1,2}|d{1,2}|h{1,2}|s{1,2}|\[(?:h{1,2}|m{1,2}|s{1,2})\]|[-:/., T])+$/i;

/** The first day on which all programs agree. */
const MARCH_1900 = 61;

/**
 * A number in a format.
 *
 * @throws NotHere for formats whose letters programs read differently
 */
function formatted(value: Scalar, format: string): Scalar {
  if (typeof value === "string" && number(value) instanceof FormulaError) return value;
  if (typeof value === "boolean") throw new NotHere("a truth in a format is written in different ways");
  const x = number(value);
  if (x instanceof FormulaError) return x;
  if (format === "") return "";
  const isDay = ofDays.test(format) && /[ymdhs]/i.test(format);
  if (!isDay && !ofNumbers.test(format))
    throw new NotHere(`the format "${format}" is written in different ways`);
  if (isDay && (x < 0 || (x < MARCH_1900 && /[yd]|^m/i.test(format))))
    throw new NotHere("days before March 1900 are written in different ways");
  return inFormat(format, Number(x.toPrecision(15)), { locale: "en" });
}

export const numberFormatFunctions: readonly NativeFunction[] = [ofValues("TEXT", [any, text], formatted)];
