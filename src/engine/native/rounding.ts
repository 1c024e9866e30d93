import type { Scalar } from "../values.js";
import { number, optional, strictNumber, whole } from "./convert.js";
import { badNumber, divisionByZero, type NativeFunction, ofValues } from "./define.js";

// Numbers are rounded as they are shown, with 15 digits: 1.005 is 1.00499999999999989… to the machine, but rounds to
// 1.01 at two decimals.

/** The number that its first 15 digits show. */
function shown(x: number): number {
  return Number(x.toPrecision(15));
}

const towardsZero = (x: number): number => Math.trunc(shown(x));
const awayFromZero = (x: number): number => Math.sign(x) * Math.ceil(Math.abs(shown(x)));
const toNearest = (x: number): number => Math.sign(x) * Math.round(Math.abs(shown(x)));

/** Rounds to a power of ten. */
function toPlaces(round: (x: number) => number): (x: number, places: number) => number {
  return (x, places) => {
    if (x === 0 || places > 20) return x;
    if (places < -20) return 0;
    // Multiplies or divides by positive powers only, which are exact in binary.
    const scale = 10 ** Math.abs(places);
    return places >= 0 ? round(x * scale) / scale : round(x / scale) * scale;
  };
}

function toMultiple(x: number, step: number, round: (x: number) => number): number {
  return shown(round(x / step) * step);
}

const down = (x: number): number => Math.floor(shown(x));
const up = (x: number): number => Math.ceil(shown(x));

/**
 * If the signs differ, only a negative number with a positive step is accepted, and is rounded towards positive
 * infinity, or away from it.
 */
function stepped(
  round: (x: number) => number,
  ofZeroStep: (x: number) => Scalar,
): (x: number, step: number) => Scalar {
  return (x, step) => {
    if (x === 0) return 0;
    if (step === 0) return ofZeroStep(x);
    return x > 0 && step < 0 ? badNumber : toMultiple(x, step, round);
  };
}

/** To the next even or odd integer away from zero. */
function nextOf(remainder: number): (x: number) => number {
  return (x) => {
    const size = Math.ceil(Math.abs(shown(x)));
    const next = size % 2 === remainder ? size : size + 1;
    return x < 0 ? -next : next;
  };
}

export const roundingFunctions: readonly NativeFunction[] = [
  ofValues("INT", [number], (x) => Math.floor(x)),
  ofValues("TRUNC", [number, optional(whole, 0)], toPlaces(towardsZero), 1),
  ofValues("ROUND", [number, whole], toPlaces(toNearest)),
  ofValues("ROUNDUP", [number, whole], toPlaces(awayFromZero)),
  ofValues("ROUNDDOWN", [number, whole], toPlaces(towardsZero)),
  ofValues("MROUND", [strictNumber, strictNumber], (x, step) => {
    if (x === 0 || step === 0) return 0;
    return Math.sign(x) === Math.sign(step) ? toMultiple(x, step, toNearest) : badNumber;
  }),
  ofValues(
    "CEILING",
    [number, number],
    stepped(up, () => 0),
  ),
  ofValues(
    "FLOOR",
    [number, number],
    stepped(down, () => divisionByZero),
  ),
  ofValues("EVEN", [number], nextOf(0)),
  ofValues("ODD", [number], nextOf(1)),
];
