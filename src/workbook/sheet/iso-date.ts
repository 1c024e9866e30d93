import { dayInMilliseconds, serialOf1970 } from "../../cells/days.js";

const from1900To1904 = 1462;
const march1900 = 61; // serial; Excel counts 29 February 1900, which never existed, so earlier days are one lower

/**
 * Serial number of a date, time or both in a cell of type "d": "2026-03-01", "2026-03-01T18:30:00", "18:30:00".
 *
 * @param since1904 whether the workbook counts from 1904
 * @returns undefined if the text is none of these
 */
export function dateSerial(text: string, since1904: boolean): number | undefined {
  const plain = text.endsWith("Z") ? text.slice(0, -1) : text;
  const split = plain.indexOf("T");
  const timeOnly = split === 0 || (split < 0 && plain.includes(":"));
  if (timeOnly) return timeOfDay(plain.slice(split + 1));
  const days = dayCount(split < 0 ? plain : plain.slice(0, split));
  const time = split < 0 ? 0 : timeOfDay(plain.slice(split + 1));
  if (days === undefined || time === undefined) return undefined;
  if (since1904) return days - from1900To1904 + time;
  return (days < march1900 ? days - 1 : days) + time;
}

function dayCount(date: string): number | undefined {
  const ms = date.length === 10 && date[4] === "-" && date[7] === "-" ? Date.parse(`${date}T00:00:00Z`) : NaN;
  return Number.isNaN(ms) ? undefined : ms / dayInMilliseconds + serialOf1970;
}

function timeOfDay(time: string): number | undefined {
  const ms = Date.parse(`1970-01-01T${time}Z`);
  return Number.isNaN(ms) ? undefined : ms / dayInMilliseconds;
}
