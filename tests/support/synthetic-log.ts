// Logs of fermentations that never were, with what is true of them: seeded, so that every run has the same ones. The curve
// is Richards' with a random shape, which is neither of the two that the core fits.
import type { Reading } from "../../src/core/log/readings-log.js";

/** Numbers from 0 to 1 that look random: a linear congruential generator, Numerical Recipes' constants, its upper bits. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const high = state >>> 8;
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (high * 256 + (state >>> 24)) / 2 ** 32;
  };
}

export interface SyntheticLog {
  readonly readings: readonly Reading[];
  /** True gravity at a time, points. */
  readonly truth: (time: number) => number;
  /** Standard deviation of a reading, points, without spikes and tilts. */
  readonly noise: number;
  /** Days between readings, without gaps. */
  readonly interval: number;
  /** Days from the last good reading before a time to the first after it. */
  readonly gapAt: (time: number) => number;
  readonly sugarAt: number | undefined;
  readonly tilt: "none" | "returns" | "stays";
  readonly end: number;
}

const INTERVALS = [1 / 96, 1 / 48, 1 / 24, 1 / 6, 1 / 2, 1];

/** How far a yeast has come: from 0 to 1, `width` days from a tenth to nine tenths. */
function progress(centre: number, width: number, shape: number): (t: number) => number {
  const rate = 4.4 / width;
  return (t) => (1 + shape * Math.exp(-rate * (t - centre))) ** (-1 / shape);
}

export function syntheticLog(seed: number): SyntheticLog {
  const random = randomFrom(seed * 7919 + 17);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

  const interval = INTERVALS[Math.floor(random() * INTERVALS.length)] ?? 1;
  const [original, final] = [between(36, 80), between(6, 18)];
  const width = between(1.5, 6);
  const centre = between(0.5, 1) + width * 0.7;
  const done = progress(centre, width, between(0.2, 1.6));
  const calm = centre + 1.3 * width;
  const resting = progress(calm + between(0.5, 2), 2, 1); // a warmer rest takes out a little more
  const restFall = between(0, 2);
  const sugarAt = random() < 0.2 ? calm + between(0, 1) : undefined;
  const [sugar, sugarWidth] = [between(5, 12), between(1.5, 3)];
  const sugarLeft = (t: number): number => Math.exp((-2.3 * (t - (sugarAt ?? 0))) / sugarWidth); // yeast is there already
  const truth = (t: number): number =>
    original -
    (original - final) * done(t) -
    restFall * resting(t) +
    (sugarAt === undefined || t < sugarAt ? 0 : sugar * sugarLeft(t) - 0.5 * (1 - sugarLeft(t)));

  const end = (sugarAt === undefined ? calm : sugarAt + 1.5 * sugarWidth) + between(5, 9);
  const byHand = interval >= 0.5;
  const noise = byHand ? between(0.2, 0.5) : between(0.3, 1);
  const draw = random();
  const tilt = byHand || draw < 0.5 || sugarAt !== undefined ? "none" : draw < 0.9 ? "returns" : "stays";
  const tiltFrom = centre + between(0.8, 2) * width;
  const tiltTo = tilt === "stays" ? Infinity : tiltFrom + between(0.25, 3);
  const tiltBy = between(3, 8);
  const gaps = Array.from({ length: Math.floor(random() * 3) }, () => {
    const from = between(0, end - 4);
    return [from, from + between(0.5, 3)] as const;
  }).filter(([from, to]) => !(from < (sugarAt ?? NaN) + 2 && to > (sugarAt ?? NaN) - 1)); // nothing could show it then
  const spikes = byHand ? 0.03 : 0.01;

  const readings: Reading[] = [];
  const good: number[] = [];
  let burst = 0;
  for (let time = 0; time <= end; time += interval) {
    const at = time + (random() - 0.5) * 0.3 * interval;
    if (gaps.some(([from, to]) => at > from && at < to)) continue;
    if (burst > 0) burst--;
    else if (random() < spikes) burst = 1 + Math.floor(random() * Math.min(3, 1 / 32 / interval)); // foam, for 45 minutes at most
    const spike = burst > 0 ? between(4, 20) * (random() < 0.75 ? 1 : -1) : 0;
    const tilted = tilt !== "none" && at >= tiltFrom && at < tiltTo ? tiltBy : 0;
    const read = truth(at) + noise * normal() + spike + tilted;
    readings.push({ time: at, gravity: byHand ? Math.round(2 * read) / 2 : Math.round(10 * read) / 10 });
    if (spike === 0 && (tilted === 0 || tilt === "stays")) good.push(at);
  }
  const gapAt = (time: number): number => {
    const next = good.findIndex((at) => at > time);
    return next > 0 ? (good[next] ?? NaN) - (good[next - 1] ?? NaN) : interval;
  };
  return { readings, truth, noise, interval, gapAt, sugarAt, tilt, end };
}

/** When the truth comes down through a gravity for the last time, found in steps and then by halving. */
export function trueCrossing({ truth, end }: SyntheticLog, gravity: number, until = end): number {
  const step = 0.01;
  let time = until;
  while (time > -1 && truth(time) <= gravity) time -= step;
  let [low, high] = [time, time + step];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (truth(middle) > gravity) low = middle;
    else high = middle;
  }
  return high;
}
