import { usualGap, type Reading } from "./ferment-log.js";
import { median } from "./robust.js";

/** How much of a log is looked at to tell its level: readings on either side. */
export interface Scope {
  readonly width: number;
  /** Readings are so close together that beer hardly changes within the width. */
  readonly dense: boolean;
  /** A rise of the level by less is scatter, points. */
  readonly least: number;
}

/** Readings that are no farther apart, days, are dense. */
export const DENSE = 1 / 4;
const LEVEL_SPAN = 3 / 24; // days
const WIDTH = { least: 3, most: 12 };
/** Rises that a brewer could do something about begin here, points. */
const LEAST_RISE = 2;

/** @param scatter of one reading, points */
export function scopeOf(readings: readonly Reading[], scatter: number): Scope {
  const gap = usualGap(readings);
  const width = Math.min(Math.max(Math.round(LEVEL_SPAN / gap), WIDTH.least), WIDTH.most);
  // Two medians of so many readings differ with a standard deviation of 1.25·√(2/width); four of these are no scatter.
  return { width, dense: gap <= DENSE, least: Math.max(LEAST_RISE, (7 * scatter) / Math.sqrt(width)) };
}

export const levelBefore = (readings: readonly Reading[], place: number, width: number): number =>
  median(readings.slice(Math.max(0, place - width), place).map(({ gravity }) => gravity));

export const levelFrom = (readings: readonly Reading[], place: number, width: number): number =>
  median(readings.slice(place, place + width).map(({ gravity }) => gravity));
