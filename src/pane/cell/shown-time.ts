// Times of logs for reading: spreadsheet date-times, or days counted from any start.

import { dayInMilliseconds, serialOf1970 } from "../../cells/days.js";
import { multiples, roundTicks, type Extent } from "../parts/chart-geometry.js";

/** Smaller numbers are days counted from any start: spreadsheet dates passed 1000 in September 1902. */
const FIRST_DATE = 1000;

const day = new Intl.DateTimeFormat(undefined, { day: "numeric", month: "short", timeZone: "UTC" });
const hour = new Intl.DateTimeFormat(undefined, {
  hour: "2-digit",
  minute: "2-digit",
  hourCycle: "h23",
  timeZone: "UTC",
});
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

/** Possible distances between ticks of a time axis, in days: whole hours, days, weeks. */
const steps = [1 / 24, 3 / 24, 6 / 24, 12 / 24, 1, 2, 4, 7, 14, 28, 91, 364];

/** Ticks of a time axis with at most this many intervals. */
export function timeTicks(span: Extent, most: number): number[] {
  const step = steps.find((each) => (span[1] - span[0]) / each <= most);
  return step === undefined || span[0] < FIRST_DATE ? roundTicks(span, most) : multiples(span, step);
}

/** Label of a tick: a day, or an hour within the day. */
export function shownTick(days: number): string {
  if (days < FIRST_DATE) return String(Number(days.toPrecision(4)));
  const minutes = Math.round(days * 24 * 60);
  return minutes % (24 * 60) === 0 ? day.format(asDate(days)) : hour.format(asDate(minutes / 24 / 60));
}
