// What the core finds in synthetic logs, against what is true of them.
import { reachedBy } from "../../src/core/log/fermentation-forecast.js";
import { stagesOf } from "../../src/core/log/fermentation-stages.js";
import { isSteady } from "../../src/core/log/fermentation-steady.js";
import { fermentation } from "../../src/core/log/fermentation.js";
import { type Reason, Refusal } from "../../src/core/refusal.js";
import { syntheticLog, trueCrossing, type SyntheticLog } from "./synthetic-log.js";

/** A time that was found, against the true one. Days. */
export interface Found {
  readonly seed: number;
  readonly error: number;
  /** How far off it may be by what the log is: see `bound`. */
  readonly bound: number;
}

export interface Recovery {
  readonly started: Found[];
  readonly steady: Found[];
  readonly reached: Found[];
  readonly forecast: Found[];
  /** Logs in which a stage is there and was not found. */
  readonly missed: { started: number; steady: number };
  readonly refused: Map<Reason["kind"], number>;
  /** Logs with sugar, by hand and by floating hydrometer, and in how many of them it was found. */
  readonly sugar: { byHand: number; foundByHand: number; dense: number; foundDense: number };
  /** Logs without sugar in which some was found. */
  ghosts: number;
}

const STEP = 0.01;

const rateOf = ({ truth }: SyntheticLog, t: number): number =>
  (truth(t - STEP) - truth(t + STEP)) / (2 * STEP);

/** Two standard errors of the mean over ±4 hours, and half of the coarsest division, points. */
const blurOf = ({ noise, interval }: SyntheticLog): number =>
  (2 * noise) / Math.sqrt(Math.max(1, 1 / 3 / interval)) + 0.25;

/** Below this many points per day a time is no time. */
const STILL = 0.1;

/**
 * How far off the time of a gravity may be: between two readings nobody knows when it was passed, and what gravity is blurred
 * by becomes time by how fast it falls.
 */
const bound = (log: SyntheticLog, t: number, blurs: number, rate: number): number =>
  log.gapAt(t) + (blurs * blurOf(log)) / Math.max(rate, STILL);

/** When gravity, slowing and without more sugar to come, falls by no more than a point in the next three days. */
function trueSteady(log: SyntheticLog): number {
  let [fastest, slowing] = [0, 0];
  const beside = (t: number): boolean => Math.abs(t - (log.sugarAt ?? NaN)) < 3 * STEP;
  for (let t = 0; t < log.end; t += STEP) if (!beside(t)) fastest = Math.max(fastest, rateOf(log, t));
  for (let t = 0; t < log.end; t += STEP) if (!beside(t) && rateOf(log, t) >= fastest / 2) slowing = t;
  let t = Math.max(slowing, log.sugarAt ?? 0);
  while (log.truth(t) - log.truth(t + 3) > 1) t += STEP;
  return t;
}

/** Asks for a time at which a log that ends too early will have come down to a gravity. */
function foretell(seed: number, log: SyntheticLog, into: Recovery): void {
  const share = (seed * 0.37) % 1;
  const [top, bottom] = [log.truth(0), log.truth(log.end)];
  const level = (left: number): number => bottom + left * (top - bottom);
  const now = trueCrossing(log, level(0.35 - 0.25 * share));
  const goal = level(0.15 - 0.1 * share);
  const readings = log.readings.filter(({ time }) => time <= now);
  try {
    const { time, standardError } = reachedBy(fermentation(readings))(goal);
    const error = time - trueCrossing(log, goal);
    if (standardError !== undefined)
      into.forecast.push({ seed, error, bound: Math.max(1, (time - now) / 2) });
  } catch (reason) {
    if (!(reason instanceof Refusal)) throw reason;
    const { kind } = reason.reason;
    into.refused.set(kind, (into.refused.get(kind) ?? 0) + 1);
  }
}

function recoverOne(seed: number, into: Recovery): void {
  const log = syntheticLog(seed);
  const cleaned = fermentation(log.readings);
  const { started, steady } = stagesOf(cleaned);
  const first = log.truth(cleaned.readings[0]?.time ?? NaN);

  const start = trueCrossing(log, first - 2, log.sugarAt);
  // Where it begins is as blurred as where it has got to.
  if (started)
    into.started.push({ seed, error: started.time - start, bound: bound(log, start, 2, rateOf(log, start)) });
  else into.missed.started++;

  const still = trueSteady(log);
  if (still + 3 < log.end && steady) {
    const change = rateOf(log, still) - rateOf(log, still + 3);
    const late = log.gapAt(still + 3);
    into.steady.push({ seed, error: steady.time - still, bound: late + bound(log, still, 2, change) });
  } else if (still + 3 < log.end) into.missed.steady++;

  const bottom = log.truth(log.end);
  const target = bottom + (first - bottom) * (0.2 + 0.6 * ((seed * 0.618) % 1));
  const when = trueCrossing(log, target);
  const error = reachedBy(cleaned)(target).time - when;
  into.reached.push({ seed, error, bound: bound(log, when, 1, rateOf(log, when)) });

  const found = cleaned.parts.length > 1;
  if (log.sugarAt === undefined) {
    if (found) into.ghosts++;
    foretell(seed, log, into);
  } else if (log.interval >= 0.5) {
    into.sugar.byHand++;
    if (found) into.sugar.foundByHand++;
  } else {
    into.sugar.dense++;
    if (found) into.sugar.foundDense++;
  }
}

export function recover(seeds: readonly number[]): Recovery {
  const into: Recovery = {
    started: [],
    steady: [],
    reached: [],
    forecast: [],
    missed: { started: 0, steady: 0 },
    refused: new Map(),
    sugar: { byHand: 0, foundByHand: 0, dense: 0, foundDense: 0 },
    ghosts: 0,
  };
  for (const seed of seeds) recoverOne(seed, into);
  return into;
}

/** How often a log was called steady, and by how much it then really fell. */
export interface Stillness {
  asked: number;
  /** True falls of the three days before, points, where it was called steady. Infinite if sugar was added in them. */
  readonly calledSteady: number[];
  /** Times at which it fell by no more than 0.7 points, well within the tolerance, and how many of them were not called so. */
  still: number;
  stillMissed: number;
}

/** Asks each log every day whether it stands still. */
export function stillness(seeds: readonly number[]): Stillness {
  const into: Stillness = { asked: 0, calledSteady: [], still: 0, stillMissed: 0 };
  for (const log of seeds.map(syntheticLog))
    for (let day = 4; day < log.end; day++) {
      const readings = log.readings.filter(({ time }) => time <= day);
      const last = readings.at(-1)?.time ?? 0;
      if (last < 3.5) continue;
      const sugared = log.sugarAt !== undefined && log.sugarAt < last && log.sugarAt > last - 3;
      const fall = sugared ? Infinity : log.truth(last - 3) - log.truth(last);
      const steady = isSteady(fermentation(readings));
      into.asked++;
      if (steady) into.calledSteady.push(fall);
      if (fall <= 0.7) into.still++;
      if (fall <= 0.7 && !steady) into.stillMissed++;
    }
  return into;
}

/** A share of values is no greater than this. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
}
