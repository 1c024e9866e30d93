import { longestFallingSubsequence, isotonicRegression } from "../numeric/monotone.js";
import { countUntil, inOrder, readingScatter, medianGap, type Reading } from "./readings-log.js";
import { hampelOutliers } from "../numeric/robust.js";
import { levelled, scopeOf, type LevelShift } from "./level.js";
import { localLine } from "./local-line.js";
import { valueAt } from "../numeric/value-at.js";

/** One reading of a log, and what came of it. */
export interface LoggedReading extends Reading {
  /** Why it was not used. */
  readonly setAside: "spike" | "tilt" | undefined;
  /** Gravity that the beer had then, by the whole log, points. */
  readonly smooth: number;
  /** Which fermentation it belongs to, from 0; sugar that is added begins a new one. */
  readonly part: number;
}

/** A reading that was used: its gravity is smooth. */
export interface SmoothReading extends Reading {
  /** As it was logged, but for a tilt that stayed, which is taken off. */
  readonly read: number;
}

/** A stretch of a log in which gravity can only fall: at least one reading. */
export type FallingStretch = readonly SmoothReading[];

/** A fermentation log, cleaned. Times are days, gravities points. */
export interface Fermentation {
  /** In order, one for each time. */
  readonly readings: readonly LoggedReading[];
  readonly parts: readonly FallingStretch[];
  /** Tilts that stayed: taken off from these times on. */
  readonly shifts: readonly LevelShift[];
  /** Scatter of one reading, one standard deviation. */
  readonly scatter: number;
}

/** Readings on either side that a spike is compared with. */
const SPIKE_WINDOW = 5;
/** Scatters by which a reading may stand above the one before it and still agree with it. */
const AGREES = 4;
/** Days to either side over which readings are smoothed. */
const SMOOTHED = 4 / 24;

/**
 * Cleans a log: spikes and tilts are set aside, and through the rest goes a curve that never rises, but where sugar was
 * added.
 *
 * 1. Hampel's filter sets spikes aside, if readings are so close together that beer hardly changes within its window.
 * 2. Where the level rises, the instrument was tilted or sugar was added: see `levelled`.
 * 3. What then still contradicts that gravity only falls is set aside: all but the longest falling run.
 * 4. Least-squares lines over ±4 hours take out scatter, and isotonic regression what still rises.
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
  // Readings that are farther apart than the lines reach have nothing to be smoothed with.
  const alone = medianGap(kept) > SMOOTHED;
  const values = isotonicRegression(kept.map(({ time, gravity }) => (alone ? gravity : line(time).gravity)));
  return kept.map(({ time, gravity }, i) => ({ time, gravity: valueAt(values, i), read: gravity }));
}

/** Every reading of the log with the smooth gravity of its time. */
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

/** Straight between the reading at a place and the next; as at the nearest outside of them. */
function between(part: FallingStretch, place: number, time: number): number {
  const [before, after] = [valueAt(part, place), part[place + 1]];
  if (!after || time <= before.time) return before.gravity;
  const share = (time - before.time) / (after.time - before.time);
  return before.gravity + share * (after.gravity - before.gravity);
}

/** Smooth gravity at any time of a part. */
export function smoothAt(part: FallingStretch, time: number): number {
  return between(part, Math.max(0, countUntil(part, time, true) - 1), time);
}
