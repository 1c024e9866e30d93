import type { FormulaError, Scalar } from "../values.js";
import { NotHere } from "./argument.js";
import { logical, number, optional, strictNumber, strictWhole, text, whole } from "./convert.js";
import { badNumber, type NativeFunction, ofValues } from "./define.js";

// Days count from 1 January 1900, and 1900 counts as a leap year, as in every spreadsheet since the first: day 60 is 29
// February 1900, which never existed.

const DAY = 86_400_000;
const LAST_DAY = 2_958_465; // 31 December 9999

export interface CalendarDay {
  readonly year: number;
  /** From 1. */
  readonly month: number;
  readonly day: number;
}

/** @throws NotHere for days before March 1900, which programs count in different ways */
export function calendarDay(serial: number): CalendarDay | FormulaError {
  const days = Math.floor(serial);
  if (days < 0 || days > LAST_DAY) return badNumber;
  if (days <= 60) throw new NotHere("days before March 1900 are counted in different ways");
  const date = new Date(Date.UTC(1899, 11, 30) + days * DAY);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

/** Months and days out of range carry over. */
export function serialOf(year: number, month: number, day: number): number | FormulaError {
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, day);
  const serial = Math.round((date.getTime() - Date.UTC(1899, 11, 30)) / DAY);
  if (Number.isNaN(serial) || serial > LAST_DAY || serial < 0) return badNumber;
  if (serial <= 60) throw new NotHere("days before March 1900 are counted in different ways");
  return serial;
}

export function daysInMonth(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate();
}

export const isNoDay = (value: CalendarDay | FormulaError): value is FormulaError => "error" in value;

function ofDay(name: string, f: (day: CalendarDay) => Scalar): NativeFunction {
  return ofValues(name, [number], (serial) => {
    const day = calendarDay(serial);
    return isNoDay(day) ? day : f(day);
  });
}

/** Seconds since midnight, rounded half up. */
function ofTime(name: string, f: (seconds: number) => number): NativeFunction {
  return ofValues(name, [number], (serial) => {
    if (serial < 0) return badNumber;
    if (serial > LAST_DAY + 1)
      throw new NotHere(`${name} of a number after the year 9999 is calculated in different ways`);
    const seconds = Math.round(Number(((serial % 1) * 86_400).toPrecision(12))) % 86_400;
    return f(seconds);
  });
}

/** The same day of another month, or its last one. */
function inMonths(serial: number, months: number, pick: (day: number, last: number) => number): Scalar {
  const from = calendarDay(serial);
  if (isNoDay(from)) return from;
  const count = from.year * 12 + from.month - 1 + months;
  const [year, month] = [Math.floor(count / 12), (((count % 12) + 12) % 12) + 1];
  if (year < 1900 || year > 9999) return badNumber;
  return serialOf(year, month, pick(from.day, daysInMonth(year, month)));
}

/** 0 for Sunday. */
export const weekdayOf = (serial: number): number => (Math.floor(serial) - 1) % 7;

/** First day of the week for each kind of week, 0 for Sunday. */
const weekStarts: ReadonlyMap<number, number> = new Map([
  [1, 0],
  [2, 1],
  ...Array.from({ length: 7 }, (_, i) => [11 + i, (i + 1) % 7] as const),
]);

function weekday(serial: number, kind: number): Scalar {
  const day = calendarDay(serial);
  if (isNoDay(day)) return day;
  if (kind === 3) return (weekdayOf(serial) + 6) % 7;
  const start = weekStarts.get(kind);
  return start === undefined ? badNumber : ((weekdayOf(serial) - start + 7) % 7) + 1;
}

function isoWeek(serial: number): Scalar {
  const thursday = Math.floor(serial) - ((weekdayOf(serial) + 6) % 7) + 3;
  const day = calendarDay(thursday);
  if (isNoDay(day)) return day;
  const first = serialOf(day.year, 1, 1);
  return typeof first === "number" ? Math.floor((thursday - first) / 7) + 1 : first;
}

function weekNumber(serial: number, kind: number): Scalar {
  const day = calendarDay(serial);
  if (isNoDay(day)) return day;
  if (kind === 21) return isoWeek(serial);
  const start = weekStarts.get(kind);
  const first = serialOf(day.year, 1, 1);
  if (start === undefined) return badNumber;
  if (typeof first !== "number") return first;
  const offset = (weekdayOf(first) - start + 7) % 7;
  return Math.floor((Math.floor(serial) - first + offset) / 7) + 1;
}

function dateDifference(from: number, to: number, unit: string): Scalar {
  const [a, b] = [calendarDay(from), calendarDay(to)];
  if (isNoDay(a)) return a;
  if (isNoDay(b)) return b;
  if (Math.floor(from) > Math.floor(to)) return badNumber;
  const months = (b.year - a.year) * 12 + b.month - a.month - (b.day < a.day ? 1 : 0);
  switch (unit.toUpperCase()) {
    case "D":
      return Math.floor(to) - Math.floor(from);
    case "M":
      return months;
    case "Y":
      return Math.floor(months / 12);
    case "YM":
      return months % 12;
    case "MD":
    case "YD":
      // Microsoft itself advises against these units: their results differ from version to version.
      throw new NotHere(`DATEDIF with "${unit}" is calculated in different ways`);
    default:
      return badNumber;
  }
}

/** Years of twelve months of 30 days, by the US or the European method. */
function days360(from: number, to: number, european: boolean): Scalar {
  const [a, b] = [calendarDay(from), calendarDay(to)];
  if (isNoDay(a)) return a;
  if (isNoDay(b)) return b;
  let [first, second] = [a.day, b.day];
  const endsFebruary = (day: CalendarDay): boolean => day.month === 2 && day.day === daysInMonth(day.year, 2);
  if (european) [first, second] = [Math.min(first, 30), Math.min(second, 30)];
  else {
    if (endsFebruary(a))
      throw new NotHere("DAYS360 from the end of February is calculated in different ways");
    if (first === 31) first = 30;
    if (second === 31 && first === 30) second = 30;
    else if (second === 31) {
      const next = b.month === 12 ? { year: b.year + 1, month: 1 } : { year: b.year, month: b.month + 1 };
      return (next.year - a.year) * 360 + (next.month - a.month) * 30 + 1 - first;
    }
  }
  return (b.year - a.year) * 360 + (b.month - a.month) * 30 + second - first;
}

function timeOf(hours: number, minutes: number, seconds: number): Scalar {
  if ([hours, minutes, seconds].some((part) => Math.abs(part) > 32_767)) return badNumber;
  const total = hours * 3600 + minutes * 60 + seconds;
  return total < 0 ? badNumber : (total % 86_400) / 86_400;
}

export const dateFunctions: readonly NativeFunction[] = [
  ofValues("DATE", [whole, whole, whole], (year, month, day) =>
    year < 0 || year > 9999 ? badNumber : serialOf(year < 1900 ? year + 1900 : year, month, day),
  ),
  ofDay("YEAR", ({ year }) => year),
  ofDay("MONTH", ({ month }) => month),
  ofDay("DAY", ({ day }) => day),
  ofTime("HOUR", (seconds) => Math.floor(seconds / 3600)),
  ofTime("MINUTE", (seconds) => Math.floor(seconds / 60) % 60),
  ofTime("SECOND", (seconds) => seconds % 60),
  ofValues("TIME", [whole, whole, whole], timeOf),
  ofValues("EDATE", [strictNumber, strictWhole], (serial, months) =>
    inMonths(serial, months, (day, last) => Math.min(day, last)),
  ),
  ofValues("EOMONTH", [strictNumber, strictWhole], (serial, months) =>
    inMonths(serial, months, (_, last) => last),
  ),
  ofValues("WEEKDAY", [number, optional(whole, 1)], weekday, 1),
  ofValues("WEEKNUM", [strictNumber, optional(strictWhole, 1)], weekNumber, 1),
  ofValues("ISOWEEKNUM", [number], (serial) => {
    const day = calendarDay(serial);
    return isNoDay(day) ? day : isoWeek(serial);
  }),
  ofValues("DAYS", [number, number], (to, from) => Math.trunc(to) - Math.trunc(from)),
  ofValues("DAYS360", [number, number, optional(logical, false)], days360, 2),
  ofValues("DATEDIF", [number, number, text], dateDifference),
];
