import { longestFallingSubsequence, isotonicRegression } from "../numeric/monotone.js";
import { countUntil, inOrder, readingScatter, medianGap, type Reading } from "./readings-log.js";
import { hampelOutliers } from "../numeric/robust.js";
import { levelled, scopeOf, type LevelShift } from "./level.js";
import { localLine } from "./local-line.js";
import { valueAt } from "../numeric/value-at.js";

/** One reading of a log, and how it was used. */
export interface LoggedReading extends Reading {
  /** Why it was excluded. */
  readonly setAside: "spike" | "tilt" | undefined;
  /** Gravity of the beer at that time, estimated from the whole log, points. */
  readonly smooth: number;
  /** Index of the fermentation it belongs to; added sugar begins a new one. */
  readonly part: number;
}

/** A reading that was used; its gravity is smoothed. */
export interface SmoothReading extends Reading {
  /** The logged gravity, less any lasting tilt. */
  readonly read: number;
}

/** A stretch of a log in which gravity can only fall: at least one reading. */
export type FallingStretch = readonly SmoothReading[];

/** A fermentation log, cleaned. Times are days, gravities points. */
export interface Fermentation {
  /** In order of time, no two at the same time. */
  readonly readings: readonly LoggedReading[];
  readonly parts: readonly FallingStretch[];
  /** Level shifts from lasting tilts; each is subtracted from its time on. */
  readonly shifts: readonly LevelShift[];
  /** Standard deviation of one reading. */
  readonly scatter: number;
}

/** Readings on either side with which a possible spike is compared. */
const SPIKE_WINDOW = 5;
/** A reading agrees with the one before if it is higher by no more than this many standard deviations. */
const AGREES = 4;
/** Half-width of the smoothing window, days. */
const SMOOTHED = 4 / 24;

/**
 * Cleans a log: excludes spikes and tilts, and fits a curve to the rest that never rises except where sugar was added.
 *
 * 1. Hampel's filter excludes spikes, if readings are so close together that beer hardly changes within its window.
 * 2. Where the level rises, the instrument was tilted or sugar was added: see `levelled`.
 * 3. Of the rest, whatever lies off the longest falling subsequence is excluded.
 * 4. Least-squares lines over ±4 hours smooth out scatter, and isotonic regression any remaining rises.
 *
 * @param log in any order, at least one reading
 */
export function fermentation(log: readonly Reading[]): Fermentation {
  const ordered = inOrder(log);
  const scatter = readingScatter(ordered);
  const scope = scopeOf(ordered, scatter);
  const gravities = ordered.map(({ gravity }) => gravity);
  const spikes = scope.dense ? hampelOutliers(gravities, SPIKE_WINDOW, scatter) : [];
  const level = levelled(without(ordered, spikes), scope);
  const starts = [-Infinity, ...[...level.restarts].sort((a, b) => a - b)];
  const parts = starts
    .map((start, i) =>
      level.readings.filter(({ time }) => time >= start && time < (starts[i + 1] ?? Infinity)),
    )
    .filter((part) => part.length > 0)
    .map((part) => smoothed(part, scatter));
  const tilted = new Set(level.tilted.map(({ time }) => time));
  return { readings: judged(ordered, parts, tilted), parts, shifts: level.shifts, scatter };
}

function without(readings: readonly Reading[], places: readonly number[]): readonly Reading[] {
  const left = new Set(places);
  return readings.filter((_, i) => !left.has(i));
}

function smoothed(part: readonly Reading[], scatter: number): FallingStretch {
  const run = longestFallingSubsequence(
    part.map(({ gravity }) => gravity),
    AGREES * scatter,
  );
  const kept = run.map((i) => valueAt(part, i));
  const line = localLine(kept, SMOOTHED, 1);
  // If readings are further apart than the window, there is nothing to smooth them with.
  const alone = medianGap(kept) > SMOOTHED;
  const values = isotonicRegression(kept.map(({ time, gravity }) => (alone ? gravity : line(time).gravity)));
  return kept.map(({ time, gravity }, i) => ({ time, gravity: valueAt(values, i), read: gravity }));
}

/** Every reading of the log with the smooth gravity at its time. */
function judged(
  ordered: readonly Reading[],
  parts: readonly FallingStretch[],
  tilted: ReadonlySet<number>,
): LoggedReading[] {
  let part = 0;
  let place = 0;
  return ordered.map(({ time, gravity }) => {
    while ((parts[part + 1]?.[0]?.time ?? Infinity) <= time) [part, place] = [part + 1, 0];
    const own = valueAt(parts, part);
    while ((own[place + 1]?.time ?? Infinity) <= time) place++;
    const setAside = own[place]?.time === time ? undefined : tilted.has(time) ? "tilt" : "spike";
    return { time, gravity, setAside, smooth: between(own, place, time), part };
  });
}

/** Linear interpolation between two neighbouring readings, constant beyond them. */
function between(part: FallingStretch, place: number, time: number): number {
  const [before, after] = [valueAt(part, place), part[place + 1]];
  if (!after || time <= before.time) return before.gravity;
  const share = (time - before.time) / (after.time - before.time);
  return before.gravity + share * (after.gravity - before.gravity);
}

/** Smooth gravity at any time within a part. */
export function smoothAt(part: FallingStretch, time: number): number {
  return between(part, Math.max(0, countUntil(part, time, true) - 1), time);
}
