import { medianGap } from "./readings-log.js";
import type { Fermentation, FallingStretch } from "./fermentation.js";
import { DENSE } from "./level.js";
import { checkRange, type Range } from "../refusal.js";
import { median } from "../numeric/robust.js";
import { lastOf } from "../numeric/value-at.js";

/** What counts as standing still. */
export interface SteadyCriterion {
  /** Days over which it is looked at. */
  readonly days: number;
  /** Points by which it may fall in that time. */
  readonly tolerance: number;
}

/** No more than a hydrometer can show, over three days. Common practice, no source. */
export const defaultSteadyCriterion: SteadyCriterion = { days: 3, tolerance: 1 };

export const steadyDays: Range = { of: "time to stand still", min: 0.5, max: 60, unit: "days" };
const steadyTolerance: Range = { of: "tolerance", min: 0.1, max: 10, unit: "points" };

/** Float dust: 1.011 − 1.010 is a little more than 0.001. */
const ROUNDING_ERROR = 1e-6;

/**
 * Whether gravity has stood still up to the last reading: from the last reading that is at least so many days older, smooth
 * gravity has fallen by no more than the tolerance. A log that is too short has not. Nor has one whose level rose within
 * that time and stayed there, whose readings drift upwards, or whose last reading was set aside: whatever it was, it is not
 * still. By hand, any reading that was set aside in that time counts so: what looks like a slip may be sugar that was added.
 *
 * @throws Refusal for a stillness that nobody could mean
 */
export function isSteady(log: Fermentation, still: SteadyCriterion = defaultSteadyCriterion): boolean {
  checkRange(steadyDays, still.days);
  checkRange(steadyTolerance, still.tolerance);
  const last = lastOf(log.readings);
  const part = lastOf(log.parts);
  if (last.setAside !== undefined) return false;
  const since = last.time - still.days;
  if (log.shifts.some(({ from }) => from > since)) return false;
  const byHand = medianGap(log.readings) > DENSE;
  if (byHand && log.readings.some(({ time, setAside }) => time > since && setAside !== undefined))
    return false;
  const first = part.findLastIndex(({ time }) => time <= since + ROUNDING_ERROR);
  const before = part[first];
  if (!before || before.gravity - last.smooth > still.tolerance + ROUNDING_ERROR) return false;
  return drift(part.slice(first)) <= still.tolerance + SCATTERS * log.scatter;
}

/** Scatters of a reading that are no drift. */
const SCATTERS = 2;

/** By how much the last third of readings, as they were logged, stands above the first. */
function drift(part: FallingStretch): number {
  const third = Math.ceil(part.length / 3);
  const level = (readings: FallingStretch): number => median(readings.map(({ read }) => read));
  return level(part.slice(-third)) - level(part.slice(0, third));
}

/**
 * The reading from which gravity stood still for the first time.
 *
 * @returns its place in the part, or undefined where none has been followed by so many still days
 */
export function steadyFrom(
  part: FallingStretch,
  { days, tolerance }: SteadyCriterion = defaultSteadyCriterion,
): number | undefined {
  let end = 0; // first reading that is at least so many days later
  for (const [i, from] of part.entries()) {
    while ((part[end]?.time ?? Infinity) < from.time + days - ROUNDING_ERROR) end++;
    const then = part[end];
    if (!then) break;
    if (from.gravity - then.gravity <= tolerance + ROUNDING_ERROR) return i;
  }
  return undefined;
}
