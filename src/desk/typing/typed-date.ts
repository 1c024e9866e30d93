import { dateSerial } from "../../workbook/sheet/iso-date.js";
import type { LocaleConventions } from "./locale-conventions.js";
import type { TypedNumber } from "./typed-number.js";

interface Day {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  /** The number format that shows it as typed. */
  readonly format: string;
}

/**
 * Reads a date, a time of day or both as a serial number. A leading year means ISO order; with points the day comes
 * first; otherwise the order of the locale applies.
 *
 * @param since1904 whether the workbook uses the 1904 date system
 * @returns undefined for text that is not a date or is ambiguous
 */
export function typedDate(
  text: string,
  conventions: LocaleConventions,
  since1904: boolean,
): TypedNumber | undefined {
  const both = /^(.*?\d)(?:[T ] ?)(\d{1,2}:.+)$/i.exec(text);
  const time = timeOf(both?.[2] ?? text);
  if (time && !both) return time;
  if (both && (!time || time.value >= 1)) return undefined;
  const day = dayOf(both?.[1] ?? text, conventions);
  if (!day) return undefined;
  const value = serialOf(day, since1904);
  if (value === undefined) return undefined;
  return {
    value: value + (time?.value ?? 0),
    format: time ? `${day.format} ${time.format ?? ""}` : day.format,
  };
}

function serialOf({ year, month, day }: Day, since1904: boolean): number | undefined {
  const date = new Date(Date.UTC(year, month - 1, day));
  const exists = date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
  if (!exists || year < (since1904 ? 1904 : 1900) || year > 9999) return undefined;
  return dateSerial(date.toISOString().slice(0, 10), since1904);
}

function timeOf(text: string): TypedNumber | undefined {
  const hour = /^(\d{1,2}) ([ap]m)$/i.exec(text);
  const found = hour
    ? [text, hour[1], "0", undefined, hour[2]]
    : /^(\d{1,4}):(\d{1,2})(?::(\d{1,2}(?:\.\d{1,3})?))?(?: ([ap]m))?$/i.exec(text);
  if (!found) return undefined;
  const [hours = 0, minutes = 0, seconds = 0] = [found[1], found[2], found[3] ?? "0"].map(Number);
  const half = found[4]?.toLowerCase();
  if (minutes > 59 || seconds >= 60 || (half && (hours < 1 || hours > 12))) return undefined;
  const ofDay = half ? (hours % 12) + (half === "pm" ? 12 : 0) : hours;
  const clock = found[3] === undefined ? "h:mm" : "h:mm:ss";
  const format = half ? `${clock} AM/PM` : hours > 23 ? "[h]:mm:ss" : clock;
  return { value: (ofDay * 3600 + minutes * 60 + seconds) / 86_400, format };
}

function dayOf(text: string, conventions: LocaleConventions): Day | undefined {
  return (
    yearFirst(text) ??
    yearLast(text, conventions) ??
    withoutYear(text, conventions) ??
    named(text, conventions)
  );
}

const pattern = (letter: string, digits: string): string => letter.repeat(digits.length);

/** 2026-11-28, 2026/11/28, 2026.11.28, 2026. 11. 28. */
function yearFirst(text: string): Day | undefined {
  const [, year = "", sign = "", month = "", day = "", end = ""] =
    /^(\d{4})([-/]|\. ?)(\d{1,2})\2(\d{1,2})(\.?)$/.exec(text) ?? [];
  if (year === "" || (end !== "" && !sign.startsWith("."))) return undefined;
  const format = `yyyy${sign}${pattern("m", month)}${sign}${pattern("d", day)}${end}`;
  return { year: Number(year), month: Number(month), day: Number(day), format };
}

/**
 * 28.11.2026, and 11/28/2026 or 28/11/2026 by locale. Two digits are a year only if the locale writes dates that way.
 */
function yearLast(text: string, { order, separator }: LocaleConventions): Day | undefined {
  const [, first = "", sign = "", second = "", year = ""] =
    /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d\d)$/.exec(text) ?? [];
  if (year === "") return undefined;
  const dayFirst = sign === "." || order === "dmy";
  if (!dayFirst && order !== "mdy") return undefined;
  if (year.length === 2 && sign === "." && separator !== ".") return undefined;
  const [day, month] = dayFirst ? [first, second] : [second, first];
  const letters = dayFirst ? ["d", "m"] : ["m", "d"];
  const format = `${pattern(letters[0] ?? "", first)}${sign}${pattern(letters[1] ?? "", second)}${sign}${pattern("y", year)}`;
  return { year: wholeYear(year), month: Number(month), day: Number(day), format };
}

/** 1/2 is a day of this year, in the order of the locale. */
function withoutYear(text: string, { shortOrder, year }: LocaleConventions): Day | undefined {
  const [, first = "", second = ""] = /^(\d{1,2})\/(\d{1,2})$/.exec(text) ?? [];
  if (first === "") return undefined;
  const [day, month] = shortOrder === "dm" ? [first, second] : [second, first];
  const letters = shortOrder === "dm" ? ["d", "m"] : ["m", "d"];
  const format = `${pattern(letters[0] ?? "", first)}/${pattern(letters[1] ?? "", second)}`;
  return { year, month: Number(month), day: Number(day), format };
}

/** 5 May, 5-May-26, 5. Mai 2026, May 5, May 5, 2026, May 2026. */
function named(text: string, { months, year: thisYear }: LocaleConventions): Day | undefined {
  const name = "(\\p{L}{3,})\\.?";
  const dayFirst = new RegExp(`^(\\d{1,2})(\\.? |-)${name}(?:(,? |-)(\\d{4}|\\d\\d))?$`, "u").exec(text);
  const monthFirst = new RegExp(`^${name} (\\d{1,2})(?:(, ?| )(\\d{4}))?$`, "u").exec(text);
  const monthOnly = new RegExp(`^${name}([ -])(\\d{4})$`, "u").exec(text);
  const [month = "", day = "1", year = ""] = dayFirst
    ? [dayFirst[3], dayFirst[1], dayFirst[5]]
    : monthFirst
      ? [monthFirst[1], monthFirst[2], monthFirst[4]]
      : [monthOnly?.[1], "1", monthOnly?.[3]];
  const number = months.get(month.toLowerCase());
  if (number === undefined) return undefined;
  const m = month.length > 4 ? "mmmm" : "mmm";
  const [d, y] = [pattern("d", day), pattern("y", year)];
  const format = dayFirst
    ? `${d}${dayFirst[2] ?? ""}${m}${dayFirst[4] ?? ""}${y}`
    : monthFirst
      ? `${m} ${d}${monthFirst[3] ?? ""}${y}`
      : `${m}${monthOnly?.[2] ?? ""}${y}`;
  return { year: year === "" ? thisYear : wholeYear(year), month: number, day: Number(day), format };
}

/** As in Excel: 29 is 2029, 30 is 1930. */
const wholeYear = (year: string): number =>
  year.length > 2 ? Number(year) : Number(year) + (Number(year) < 30 ? 2000 : 1900);
