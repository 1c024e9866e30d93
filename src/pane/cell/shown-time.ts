// Times of logs for reading: date-times as spreadsheets count them, or days counted from somewhere.

import { dayInMilliseconds, serialOf1970 } from "../../cells/days.js";

/** Numbers below are days counted from somewhere: spreadsheets had reached 1000 in September 1902. */
const FIRST_DATE = 1000;

const day = new Intl.DateTimeFormat(undefined, { day: "numeric", month: "short", timeZone: "UTC" });
const minute = new Intl.DateTimeFormat(undefined, {
  day: "numeric",
  month: "short",
  hour: "2-digit",
  minute: "2-digit",
  hourCycle: "h23",
  timeZone: "UTC",
});

const asDate = (days: number): Date => new Date((days - serialOf1970) * dayInMilliseconds);

export const shownTime = (days: number): string =>
  days >= FIRST_DATE ? minute.format(asDate(days)) : `day ${days.toFixed(2)}`;

/** To the day, for an axis. */
export const shownDay = (days: number): string =>
  days >= FIRST_DATE ? day.format(asDate(days)) : String(Number(days.toPrecision(4)));
