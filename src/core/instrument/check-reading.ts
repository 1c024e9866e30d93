import { eachPair } from "./calibration-fit.js";
import type { CheckPoint } from "./check-point.js";
import { markOf, scaleMarks, type Hydrometer } from "./hydrometer.js";
import { checkRange, Refusal } from "../refusal.js";

/** What a scale check needs to know of a hydrometer. */
export interface GraduatedScale extends Pick<Hydrometer, "scale" | "meniscusAllowance"> {
  readonly lowest?: number | undefined;
  readonly highest?: number | undefined;
}

interface Limits {
  /** Largest credible shift. A typing error is likelier than a scale that is further off. */
  readonly maxShift: number;
  /** Readings this close together count as the same mark, and their shifts may differ by as much. */
  readonly sameMark: number;
  /** Largest residual at a pair if a single shift fits the scale. */
  readonly maxResidual: number;
  /** Nobody reads more finely than this, as a standard deviation. */
  readonly minScatter: number;
}

// Common practice, no source.
const degrees: Limits = { maxShift: 4, sameMark: 0.5, maxResidual: 0.25, minScatter: 0.06 };
export const limits: Record<Hydrometer["scale"], Limits> = {
  SG: { maxShift: 0.015, sameMark: 0.002, maxResidual: 0.001, minScatter: 0.00025 },
  P: degrees,
  BX: degrees,
};

/**
 * A check reading as a hydrometer's profile keeps it: the reading, and the mark to which a faultless hydrometer would
 * have sunk.
 *
 * @param reading as read, in units of the scale, meniscus as usual
 * @param tC temperature of the liquid, °C, 0 to 80
 * @param extract its true strength, °P, −4 to 30
 * @throws Refusal outside these ranges
 */
export function checkPoint(reading: number, tC: number, extract: number, hydrometer: Hydrometer): CheckPoint {
  return { reading, true: markOf(extract, tC, hydrometer) };
}

/** A pair with its index in the list, from 0, and the shift it implies. */
export interface Placed extends CheckPoint {
  readonly place: number;
  readonly shift: number;
}

/**
 * Groups pairs whose readings span no more than `sameMark`. Groups are in order of reading, pairs within a group in
 * order of shift.
 */
export function byReading(
  points: readonly CheckPoint[],
  { meniscusAllowance }: GraduatedScale,
  sameMark: number,
): Placed[][] {
  const placed = points.map((point, place) => ({
    ...point,
    place,
    shift: point.true - point.reading - meniscusAllowance,
  }));
  const groups: Placed[][] = [];
  for (const point of placed.sort((a, b) => a.reading - b.reading)) {
    const group = groups.at(-1);
    if (group?.[0] && point.reading - group[0].reading <= sameMark) group.push(point);
    else groups.push([point]);
  }
  return groups.map((group) => group.sort((a, b) => a.shift - b.shift));
}

/** @throws Refusal if the shifts within a group differ by too much */
export function checkGroups(groups: readonly Placed[][], scale: Hydrometer["scale"]): void {
  for (const group of groups) {
    const [low, high] = [group.at(0), group.at(-1)];
    if (low && high && high.shift - low.shift > limits[scale].sameMark) throw contradiction(low, high, scale);
  }
}

export function contradiction(a: Placed, b: Placed, scale: Hydrometer["scale"]): Refusal {
  const [one, other] = a.place < b.place ? [a, b] : [b, a];
  return new Refusal({ kind: "pairs-contradict", one, other, unit: scaleMarks[scale].unit });
}

/** @throws Refusal for pairs that no scale could give */
export function checkPairs(points: readonly CheckPoint[], graduated: GraduatedScale): void {
  const { scale, meniscusAllowance, lowest, highest } = graduated;
  const { maxShift } = limits[scale];
  const marks = scaleMarks[scale];
  eachPair(points, (point) => {
    checkRange({ ...marks, min: lowest ?? marks.min, max: highest ?? marks.max }, point.reading);
    if (!(Math.abs(point.true - point.reading - meniscusAllowance) <= maxShift))
      throw new Refusal({ kind: "too-far-off", pair: point, most: maxShift, unit: marks.unit });
  });
  checkGroups(byReading(points, graduated, 0), scale);
}
