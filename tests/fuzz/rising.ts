// Which way a result goes when one argument rises and the others stay: from what the quantities are.
import fc, { type Arbitrary } from "fast-check";
import type { FunctionSpec } from "../../src/functions/contract/function-spec.js";
import { likelyArguments } from "../support/any-arguments.js";
import { called } from "../support/cell-contract.js";

/** By function: the place of an argument, and whether the result rises (+1) or falls (-1) with it. */
export const directions: Readonly<Record<string, readonly (readonly [place: number, way: 1 | -1])[]>> = {
  HYDROMETER: [[0, 1]],
  "REFRACTOMETER.WORT": [[0, 1]],
  FLOATING: [[0, 1]],
  CONVERT: [[0, 1]],
  ABV: [
    [0, 1],
    [1, -1],
  ],
  ABW: [
    [0, 1],
    [1, -1],
  ],
  "ATTENUATION.APPARENT": [[1, -1]], // falls with the original where beer is lighter than water
  "EXTRACT.REAL": [[1, 1]],
  "FINAL.EXPECTED": [[0, 1]], // and with attenuation the other way round for what reads as lighter than water

  ENERGY: [[0, 1]],
  "VOLUME.COOLED": [
    [0, 1],
    [1, -1],
  ],
  "EXTRACT.MASS": [[1, 1]],

  "EXTRACT.POTENTIAL": [[0, 1]],
  "BOIL.GRAVITY": [
    [0, 1],
    [1, 1],
    [2, -1],
  ],
  DILUTE: [
    [0, 1],
    [1, 1],
    [2, -1],
  ],
};

/** Two values of one argument may be as far apart as they like, but the others are the same. */
export const pairOfCalls = (spec: FunctionSpec, place: number): Arbitrary<[unknown[], unknown[]]> =>
  fc.tuple(likelyArguments(spec), likelyArguments(spec)).map(([args, other]) => {
    const changed = [...args];
    changed[place] = other[place];
    return [args, changed];
  });

/** Gravities may be written as points ("1046"), and then the larger number is not the larger gravity. */
const asWritten = (value: unknown): number => (typeof value === "number" ? (value > 500 ? NaN : value) : NaN);

/** @returns what is wrong, if anything */
export function goesWrongWay(
  spec: FunctionSpec,
  place: number,
  way: 1 | -1,
  [first, second]: readonly [readonly unknown[], readonly unknown[]],
): string | undefined {
  const given = [asWritten(first[place]), asWritten(second[place])] as const;
  if (Number.isNaN(given[0] + given[1])) return undefined;
  const [a, b] = [first, second].map((args) => called(spec, args).cells[0]?.[0]);
  if (typeof a !== "number" || typeof b !== "number") return undefined;
  const rise = (b - a) * Math.sign(given[1] - given[0]) * way;
  return rise < -1e-9 * Math.max(1, Math.abs(a), Math.abs(b))
    ? `goes the wrong way with argument ${place + 1}: ${given[0]} gives ${a}, ${given[1]} gives ${b}`
    : undefined;
}
