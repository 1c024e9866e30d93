import { FormulaError, type Scalar } from "../values.js";
import { type Argument, cellsOf, isSeveral, NotHere, single } from "./argument.js";
import { number, optional, strictWhole } from "./convert.js";
import { calendarDay, daysInMonth, isNoDay, serialOf, weekdayOf } from "./dates.js";
import { badNumber, badValue, type NativeFunction, ofArrays, ofValues } from "./define.js";

/** Free days of a week, Monday first. */
type Week = readonly boolean[];

const saturdayAndSunday: Week = [false, false, false, false, false, true, true];

/** A number for a weekend of two days or one, or seven digits with a 1 for each free day from Monday on. */
function weekOf(argument: Argument): Week | FormulaError {
  const given = single(argument);
  if (given === undefined) return saturdayAndSunday;
  if (typeof given === "string") {
    if (!/^[01]{7}$/.test(given)) return badValue;
    return given === "1111111" ? badValue : Array.from(given, (digit) => digit === "1");
  }
  const kind = number(given);
  if (kind instanceof FormulaError) return kind;
  if (!Number.isInteger(kind)) throw new NotHere("it takes a weekend by a number that is not whole");
  if (kind >= 1 && kind <= 7)
    return [0, 1, 2, 3, 4, 5, 6].map((day) => [kind + 4, kind + 5].some((free) => free % 7 === day));
  if (kind >= 11 && kind <= 17) return [0, 1, 2, 3, 4, 5, 6].map((day) => day === (kind - 5) % 7);
  return badNumber;
}

/**
 * The first two arguments of a call, a day and a number or second day; both are read before either is checked.
 *
 * @throws NotHere for a range of days instead of one
 */
function startOf(day: Argument, second: Argument): readonly [number, number] | FormulaError {
  if (isSeveral(day) || isSeveral(second))
    throw new NotHere("it counts working days from several days at once");
  const serial = strictWhole(single(day));
  if (serial instanceof FormulaError) return serial;
  const other = strictWhole(single(second));
  if (other instanceof FormulaError) return other;
  const isDay = calendarDay(serial);
  return isNoDay(isDay) ? isDay : [serial, other];
}

function holidaysOf(argument: Argument): ReadonlySet<number> | FormulaError {
  const days = new Set<number>();
  if (argument === undefined) return days;
  for (const value of cellsOf(argument)) {
    if (value === null || value === "") continue;
    const serial = strictWhole(value);
    if (serial instanceof FormulaError) return serial;
    days.add(serial);
  }
  return days;
}

const mondayFirst = (serial: number): number => (weekdayOf(serial) + 6) % 7;

interface Calendar {
  readonly week: Week;
  readonly holidays: ReadonlySet<number>;
}

function isWorkday(serial: number, { week, holidays }: Calendar): boolean {
  return week[mondayFirst(serial)] === false && !holidays.has(serial);
}

function calendarOf(week: Argument, holidays: Argument): Calendar | FormulaError {
  const free = weekOf(week);
  if (free instanceof FormulaError) return free;
  const days = holidaysOf(holidays);
  return days instanceof FormulaError ? days : { week: free, holidays: days };
}

/** Working days between two days, both included; negative if counted backwards. */
function countBetween(from: Argument, to: Argument, week: Argument, holidays: Argument): Scalar {
  const days = startOf(from, to);
  if (days instanceof FormulaError) return days;
  const [first, last] = days;
  const end = calendarDay(last);
  if (isNoDay(end)) return end;
  const calendar = calendarOf(week, holidays);
  if (calendar instanceof FormulaError) return calendar;
  let count = 0;
  for (let day = Math.min(first, last); day <= Math.max(first, last); day++)
    if (isWorkday(day, calendar)) count++;
  return first <= last ? count : -count;
}

function goOn(from: Argument, days: Argument, week: Argument, holidays: Argument): Scalar {
  const start = startOf(from, days);
  if (start instanceof FormulaError) return start;
  const [first, count] = start;
  const calendar = calendarOf(week, holidays);
  if (calendar instanceof FormulaError) return calendar;
  let day = first;
  for (let left = Math.abs(count); left > 0;) {
    day += Math.sign(count);
    if (isNoDay(calendarDay(day))) return badNumber;
    if (isWorkday(day, calendar)) left--;
  }
  return day;
}

/** By basis: months of 30 days, US (0) or European (4); actual days over actual years (1), over 360 (2) or 365 (3). */
function yearFraction(from: number, to: number, basis: number): Scalar {
  if (basis < 0 || basis > 4) return badNumber;
  const [start, end] = from <= to ? [from, to] : [to, from];
  const [a, b] = [calendarDay(start), calendarDay(end)];
  if (isNoDay(a)) return a;
  if (isNoDay(b)) return b;
  const days = end - start;
  if (basis === 2) return days / 360;
  if (basis === 3) return days / 365;
  if (basis === 1) {
    const anniversary = serialOf(a.year + 1, a.month, Math.min(a.day, daysInMonth(a.year + 1, a.month)));
    if (anniversary instanceof FormulaError) return anniversary;
    const lengthOf = (year: number): number => (daysInMonth(year, 2) === 29 ? 366 : 365);
    // Up to a year counts by whether a leap day lies in it; longer spans by the mean length of the years touched.
    if (end > anniversary) {
      let total = 0;
      for (let year = a.year; year <= b.year; year++) total += lengthOf(year);
      return days / (total / (b.year - a.year + 1));
    }
    const leapDay = [a.year, b.year]
      .filter((year) => lengthOf(year) === 366)
      .map((year) => serialOf(year, 2, 29))
      .some((day) => typeof day === "number" && day >= start && day <= end);
    const sameYear = a.year === b.year;
    return days / (sameYear ? lengthOf(a.year) : leapDay ? 366 : 365);
  }
  let [first, last] = [a.day, b.day];
  if (basis === 4) [first, last] = [Math.min(first, 30), Math.min(last, 30)];
  else {
    const endsFebruary = a.month === 2 && a.day === daysInMonth(a.year, 2);
    if (endsFebruary && b.month === 2 && b.day === daysInMonth(b.year, 2)) last = 30;
    if (endsFebruary) first = 30;
    if (last === 31 && first >= 30) last = 30;
    if (first === 31) first = 30;
  }
  return ((b.year - a.year) * 360 + (b.month - a.month) * 30 + last - first) / 360;
}

export const workdayFunctions: readonly NativeFunction[] = [
  ofArrays("NETWORKDAYS", [2, 3], (from, to, holidays) => countBetween(from, to, undefined, holidays)),
  ofArrays("NETWORKDAYS.INTL", [2, 4], countBetween),
  ofArrays("WORKDAY", [2, 3], (from, days, holidays) => goOn(from, days, undefined, holidays)),
  ofArrays("WORKDAY.INTL", [2, 4], goOn),
  ofValues("YEARFRAC", [strictWhole, strictWhole, optional(strictWhole, 0)], yearFraction, 2),
];
