import { dayInMilliseconds, serialOf1970 } from "../../cells/days.js";

/** Time of a reading in a log. */
export interface LogTime {
  /** Days as a spreadsheet counts them; in UTC if the time has a zone. */
  readonly days: number;
  /** Offset of its zone from UTC in days, if the text states one. */
  readonly zone: number | undefined;
}

/** Smaller numbers are days counted from somewhere, not dates: in spreadsheets, 1000 is September 1902. */
export const FIRST_DATE = 1000;
/** The last day that a spreadsheet knows, 9999-12-31. */
export const LAST_DATE = 2_958_466;

// ISO 8601, extended format: date; time with or without seconds and their fraction; zone.
const ISO =
  /^(\d{4})-(\d\d)-(\d\d)(?:[Tt ](\d\d):(\d\d)(?::(\d\d(?:[.,]\d{1,9})?))?\s?(?:([Zz])|([+-])(\d\d):?(\d\d)?)?)?$/;

/** A date-time in text. @returns undefined for anything else */
export function parseIsoTime(text: string): LogTime | undefined {
  const found = text.length > 48 ? null : ISO.exec(text.trim());
  if (!found) return undefined;
  const number = (i: number): number => Number((found[i] ?? "0").replace(",", "."));
  const [year, month, day, hour, minute, second] = [1, 2, 3, 4, 5, 6].map(number) as [
    number, number, number, number, number, number,
  ]; // prettier-ignore
  const midnight = Date.UTC(year, month - 1, day);
  const exists = new Date(midnight).toISOString().startsWith(`${found[1]}-${found[2]}-${found[3]}`);
  if (!exists || year < 1903 || hour > 24 || minute > 59 || second >= 60) return undefined;
  const time = (hour + (minute + second / 60) / 60) / 24;
  if (time > 1 || number(9) > 14 || number(10) > 59) return undefined;
  const ahead = (found[8] === "-" ? -1 : 1) * ((number(9) + number(10) / 60) / 24);
  const zone = found[7] !== undefined ? 0 : found[8] !== undefined ? ahead : undefined;
  return { days: midnight / dayInMilliseconds + serialOf1970 + time - (zone ?? 0), zone };
}

/** A date-time as text, to the minute. */
export function isoTime(days: number): string {
  const ms = Math.round((days - serialOf1970) * 1440) * 60_000;
  return new Date(ms).toISOString().slice(0, 16).replace("T", " ");
}
