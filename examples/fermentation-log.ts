// A fermentation that never was, as a floating hydrometer would have logged it: seeded, so it is the same every time.

export interface LogLine {
  /** On the clock of the brewery. */
  readonly time: Date;
  readonly gravity: number;
  readonly celsius: number;
}

const PITCHED = Date.UTC(2026, 3, 14, 19, 30);
const MINUTES = 15;
const DAYS = 15;
const DRY_HOPPED = 6.6; // days after pitching; the float leans on the hops for most of two days
const HOPS_SANK = 8.2;
const RESTED = 5; // days after pitching: the temperature is let up for a rest
const SILENT = [10.1, 11.4] as const; // days: out of reach of the brewery's network

/** Numbers from 0 to 1 that look random: a linear congruential generator with Numerical Recipes' constants. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state >>> 8) / 2 ** 24;
  };
}

const rising = (from: number, length: number, t: number): number =>
  Math.min(1, Math.max(0, (t - from) / length));

/** What the beer does, in points: a fall with a lag, and a last bit that goes in the warmer rest. */
const beer = (t: number): number =>
  51.4 -
  38.6 * (1 + 0.5 * Math.exp(-1.75 * (t - 2.6))) ** -2 -
  1.6 * (1 - Math.exp(-rising(RESTED, 9, t) * 8));

/** The log of batch 211, a made-up pale ale. */
export function fermentationLog(): LogLine[] {
  const random = randomFrom(211);
  const scatter = (): number => random() + random() + random() - 1.5; // about normal, half a point
  const lines: LogLine[] = [];
  let foam = 0;
  for (let i = 0; i <= (DAYS * 1440) / MINUTES; i++) {
    const t = (i * MINUTES) / 1440;
    foam = foam > 0 ? foam - 1 : random() < 0.012 ? Math.ceil(3 * random()) : 0;
    const spike = foam > 0 ? 6 + 14 * random() : 0;
    const tilt = t > DRY_HOPPED && t < HOPS_SANK ? 4.5 : 0;
    const points = beer(t) + 0.9 * scatter() + spike + tilt;
    const celsius = 18.5 + 1.2 * rising(0.5, 2, t) + 2.4 * rising(RESTED, 0.8, t) - 18 * rising(13, 1.2, t);
    if (t > SILENT[0] && t < SILENT[1]) continue;
    lines.push({
      time: new Date(PITCHED + i * MINUTES * 60_000),
      gravity: 1 + Math.round(10 * points) / 10_000,
      celsius: Math.round(10 * (celsius + 0.15 * scatter())) / 10,
    });
  }
  return lines;
}

/** The log as text, times in ISO 8601 on the clock of the brewery. */
export function logCsv(): string {
  const rows = fermentationLog().map(
    ({ time, gravity, celsius }) =>
      `${time.toISOString().slice(0, 16)},${gravity.toFixed(4)},${celsius.toFixed(1)},211 (invented)`,
  );
  return ["time,gravity,celsius,batch", ...rows, ""].join("\n");
}
