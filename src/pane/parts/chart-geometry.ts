// Geometry of charts: scales, ticks and SVG paths.

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Minimum and maximum of an axis. */
export type Extent = readonly [low: number, high: number];

/** Minimum and maximum of some values. No spread call: a log may have more values than a call takes arguments. */
export function extent(values: readonly number[]): Extent {
  return [values.reduce((a, b) => Math.min(a, b)), values.reduce((a, b) => Math.max(a, b))];
}

/**
 * Adds a margin on both sides, so that nothing lies on the frame.
 *
 * @param share of the extent to add on each side
 * @param least minimum width of the extent, for values that hardly differ
 */
export function padded([low, high]: Extent, share: number, least: number): Extent {
  const room = Math.max((high - low) * share, (least - (high - low)) / 2);
  return [low - room, high + room];
}

/** Maps a value of an extent to a position between two edges, to a hundredth of a unit. */
export const linearScale =
  ([low, high]: Extent, from: number, to: number) =>
  (value: number): number =>
    Math.round((from + ((value - low) / (high - low)) * (to - from)) * 100) / 100;

/** Multiples of a step within an extent. */
export function multiples([low, high]: Extent, step: number): number[] {
  const [first, last] = [Math.ceil(low / step), Math.floor(high / step)];
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step);
}

/** Round tick values within an extent, with at most this many intervals of 1, 2 or 5 times a power of ten. */
export function roundTicks(span: Extent, most: number): number[] {
  const least = (span[1] - span[0]) / most;
  const power = 10 ** Math.floor(Math.log10(least));
  const step = [1, 2, 5].map((each) => each * power).find((each) => each >= least) ?? 10 * power;
  return multiples(span, step);
}

/** A line through points. */
export const linePath = (places: readonly Point[]): string =>
  places.map(({ x, y }, i) => `${i === 0 ? "M" : "L"}${x} ${y}`).join("");

/** Ring markers at the points, in one path; those that would coincide are drawn once. */
export const ringsPath = (places: readonly Point[], radius: number): string =>
  [...new Set(places.map(({ x, y }) => `M${x - radius} ${y}`))]
    .map(
      (start) =>
        `${start}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0`,
    )
    .join("");

/** Cross markers at the points: they differ from rings without any colour. */
export const crossesPath = (places: readonly Point[], size: number): string =>
  places
    .map(({ x, y }) => {
      const [left, right, up, down] = [x - size, x + size, y - size, y + size];
      return `M${left} ${up}L${right} ${down}M${left} ${down}L${right} ${up}`;
    })
    .join("");
