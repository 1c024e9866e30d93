import { eachPair } from "./calibration-fit.js";
import type { CheckPoint } from "./check-point.js";
import { markOf, scaleMarks, type Hydrometer } from "./hydrometer.js";
import { checkRange, Refusal } from "../refusal.js";

/** What matters of a hydrometer when its scale is checked. */
export interface GraduatedScale extends Pick<Hydrometer, "scale" | "meniscusAllowance"> {
  readonly lowest?: number | undefined;
  readonly highest?: number | undefined;
}

interface Limits {
  /** A scale that is farther off belongs into the bin; a slip of typing is likelier. */
  readonly maxShift: number;
  /** Readings as near as this are one place of the scale, and may ask for shifts that differ by as much. */
  readonly sameMark: number;
  /** What one shift may leave over at a pair. */
  readonly maxResidual: number;
  /** Nobody reads finer than this, as a standard deviation. */
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
 * A check reading as the profile of a hydrometer keeps it: as read, beside the mark to which a hydrometer without fault
 * would have sunk.
 *
 * @param reading as read, in units of the scale, the meniscus as always
 * @param tC temperature of the liquid, °C, 0 to 80
 * @param extract its true strength, °P, −4 to 30
 * @throws Refusal outside these ranges
 */
export function checkPoint(reading: number, tC: number, extract: number, hydrometer: Hydrometer): CheckPoint {
  return { reading, true: markOf(extract, tC, hydrometer) };
}

/** A pair that knows its place in the list, from 0, and the shift that it asks for. */
export interface Placed extends CheckPoint {
  readonly place: number;
  readonly shift: number;
}

/** Pairs whose readings are no farther apart than `near` together, by rising shift; the groups in the order of the scale. */
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

/** @throws Refusal if pairs of one group ask for shifts too far apart */
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

/** @throws Refusal for pairs that no scale gives */
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
