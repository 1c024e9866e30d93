import { medianGap } from "./readings-log.js";
import type { Fermentation, FallingStretch } from "./fermentation.js";
import { DENSE } from "./level.js";
import { checkRange, type Range } from "../refusal.js";
import { median } from "../numeric/robust.js";
import { lastOf } from "../numeric/value-at.js";

/** When gravity counts as steady. */
export interface SteadyCriterion {
  /** Length of time to look back, days. */
  readonly days: number;
  /** Largest fall within that time, points. */
  readonly tolerance: number;
}

/** The smallest change a hydrometer can show, over three days. Common practice, no source. */
export const defaultSteadyCriterion: SteadyCriterion = { days: 3, tolerance: 1 };

export const steadyDays: Range = { of: "time to stand still", min: 0.5, max: 60, unit: "days" };
const steadyTolerance: Range = { of: "tolerance", min: 0.1, max: 10, unit: "points" };

/** Floating-point rounding: 1.011 − 1.010 is slightly more than 0.001. */
const ROUNDING_ERROR = 1e-6;

/**
 * Whether gravity is steady at the last reading: smooth gravity has fallen by no more than the tolerance since the
 * latest reading that is at least `days` older.
 *
 * A log is not steady if it is too short, if its level shifted within that time, if its readings drift upwards, or if
 * its last reading was excluded. In a log kept by hand any reading excluded within that time counts against it, because
 * what looks like a misreading may be added sugar.
 *
 * @throws Refusal for a criterion out of range
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

/** Upward drift within this many standard deviations of a reading is ignored. */
const SCATTERS = 2;

/** How much the last third of the raw readings is above the first third. */
function drift(part: FallingStretch): number {
  const third = Math.ceil(part.length / 3);
  const level = (readings: FallingStretch): number => median(readings.map(({ read }) => read));
  return level(part.slice(-third)) - level(part.slice(0, third));
}

/**
 * First reading from which gravity was steady.
 *
 * @returns its index in the part, or undefined if none is followed by enough steady days
 */
export function steadyFrom(
  part: FallingStretch,
  { days, tolerance }: SteadyCriterion = defaultSteadyCriterion,
): number | undefined {
  let end = 0; // first reading that is at least `days` later
  for (const [i, from] of part.entries()) {
    while ((part[end]?.time ?? Infinity) < from.time + days - ROUNDING_ERROR) end++;
    const then = part[end];
    if (!then) break;
    if (from.gravity - then.gravity <= tolerance + ROUNDING_ERROR) return i;
  }
  return undefined;
}
