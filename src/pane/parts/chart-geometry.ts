// Where things are drawn in a picture: scales, ticks and the paths of an SVG.

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The least and the greatest value that a picture has room for. */
export type Extent = readonly [low: number, high: number];

/** From the least to the greatest of some values. No spread: a log may have more values than a call takes arguments. */
export function extent(values: readonly number[]): Extent {
  return [values.reduce((a, b) => Math.min(a, b)), values.reduce((a, b) => Math.max(a, b))];
}

/**
 * With a share of room on both sides, so that nothing lies on the frame.
 *
 * @param least how wide the span is at least, for values that hardly differ
 */
export function widened([low, high]: Extent, share: number, least: number): Extent {
  const room = Math.max((high - low) * share, (least - (high - low)) / 2);
  return [low - room, high + room];
}

/** Where a value of a span is drawn between two edges, to a hundredth of a unit. */
export const linearScale =
  ([low, high]: Extent, from: number, to: number) =>
  (value: number): number =>
    Math.round((from + ((value - low) / (high - low)) * (to - from)) * 100) / 100;

/** Multiples of a step within a span. */
export function multiples([low, high]: Extent, step: number): number[] {
  const [first, last] = [Math.ceil(low / step), Math.floor(high / step)];
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step);
}

/** Round values within a span, at most so many intervals: 1, 2 or 5 times a power of ten apart. */
export function roundTicks(span: Extent, most: number): number[] {
  const least = (span[1] - span[0]) / most;
  const power = 10 ** Math.floor(Math.log10(least));
  const step = [1, 2, 5].map((each) => each * power).find((each) => each >= least) ?? 10 * power;
  return multiples(span, step);
}

/** A line from place to place. */
export const linePath = (places: readonly Point[]): string =>
  places.map(({ x, y }, i) => `${i === 0 ? "M" : "L"}${x} ${y}`).join("");

/** A ring at each place, in one path; those that would lie on each other are drawn once. */
export const ringsPath = (places: readonly Point[], radius: number): string =>
  [...new Set(places.map(({ x, y }) => `M${x - radius} ${y}`))]
    .map(
      (start) =>
        `${start}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0`,
    )
    .join("");

/** A cross at each place: no colour is needed to tell it from a ring. */
export const crossesPath = (places: readonly Point[], size: number): string =>
  places
    .map(({ x, y }) => {
      const [left, right, up, down] = [x - size, x + size, y - size, y + size];
      return `M${left} ${up}L${right} ${down}M${left} ${down}L${right} ${up}`;
    })
    .join("");
