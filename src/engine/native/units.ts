import type { Scalar } from "../values.js";
import { NotHere } from "./argument.js";
import { number, text } from "./convert.js";
import { type NativeFunction, notAvailable, ofValues } from "./define.js";

interface Unit {
  readonly of: "mass" | "volume" | "length" | "temperature";
  readonly scale: number;
  /** Value in this unit at 0 of the base unit. */
  readonly zero?: number;
}

const POUND = 0.453_592_37; // kg, International Yard and Pound Agreement, 1959
const INCH = 0.0254; // m, the same
const US_GALLON = 231 * INCH ** 3 * 1000; // l, 231 cubic inches
const UK_GALLON = 4.546_09; // l, Weights and Measures Act 1985

/** Units by their CONVERT codes, with their definitions in kilograms, litres, metres and kelvins. */
const units: Readonly<Record<string, Unit>> = {
  kg: { of: "mass", scale: 1 },
  g: { of: "mass", scale: 0.001 },
  lbm: { of: "mass", scale: POUND },
  ozm: { of: "mass", scale: POUND / 16 },
  l: { of: "volume", scale: 1 },
  L: { of: "volume", scale: 1 },
  lt: { of: "volume", scale: 1 },
  ml: { of: "volume", scale: 0.001 },
  "m^3": { of: "volume", scale: 1000 },
  gal: { of: "volume", scale: US_GALLON },
  qt: { of: "volume", scale: US_GALLON / 4 },
  pt: { of: "volume", scale: US_GALLON / 8 },
  us_pt: { of: "volume", scale: US_GALLON / 8 },
  uk_gal: { of: "volume", scale: UK_GALLON },
  uk_qt: { of: "volume", scale: UK_GALLON / 4 },
  uk_pt: { of: "volume", scale: UK_GALLON / 8 },
  m: { of: "length", scale: 1 },
  cm: { of: "length", scale: 0.01 },
  mm: { of: "length", scale: 0.001 },
  in: { of: "length", scale: INCH },
  ft: { of: "length", scale: 12 * INCH },
  K: { of: "temperature", scale: 1, zero: 0 },
  C: { of: "temperature", scale: 1, zero: -273.15 },
  F: { of: "temperature", scale: 5 / 9, zero: -459.67 },
};

function converted(value: number, from: string, to: string): Scalar {
  const [given, wanted] = [units[from], units[to]];
  if (!given || !wanted) throw new NotHere(`CONVERT is not sure here of the unit "${given ? to : from}"`);
  if (given.of !== wanted.of) return notAvailable;
  if (from === to) return value;
  return ((value - (given.zero ?? 0)) * given.scale) / wanted.scale + (wanted.zero ?? 0);
}

export const unitFunctions: readonly NativeFunction[] = [
  ofValues("CONVERT", [number, text, text], converted),
];
