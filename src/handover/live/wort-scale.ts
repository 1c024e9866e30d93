import { wortRange } from "../../core/brewhouse/extract-mass.js";
import { gravityRange } from "../../core/liquid/gravity.js";
import type { Interval } from "../fit/interval.js";
import {
  above,
  constant,
  gravityAsWritten,
  type InputCondition,
  type Expression,
} from "../fit/expression.js";
import type { FoldedCall, Input } from "./live-function.js";
import { extractPiece, gravityPiece, numberFrom, piece, type FittedFunction } from "./pieces.js";
import { toleranceOf, word } from "./quantities.js";

/** The gravity scale of wort in a formula, with the conversions from it. */
export interface WortScale {
  /** "SG" or "P". */
  readonly name: string;
  readonly interval: Interval;
  /** Value of a gravity in a cell. */
  readonly read: (raw: Expression) => Expression;
  /** °P. */
  readonly extract: (x: Expression) => Expression;
  /** kg/m³. */
  readonly density: FittedFunction;
  /** Mass of extract in one unit of volume. */
  readonly mass: (volumeUnit?: string | number, massUnit?: string | number) => FittedFunction;
  /** Gravity from °P. */
  readonly back: FittedFunction;
  /** Conditions for a gravity of at least that of water. */
  readonly isWort: (x: Expression) => readonly InputCondition[];
  /** Tolerance of a gravity, and its unit. */
  readonly tolerance: number;
  readonly unit: string;
}

/** °P is extract already. */
const itself: FittedFunction = { of: (x) => x, holds: () => [] };

/** The scale of a call. */
export function wortScaleLive(call: FoldedCall): WortScale {
  const name = word(call, "scale", "SG");
  const isPlato = name === "P";
  const interval: Interval = isPlato ? wortRange : gravityRange;
  const [tolerance, unit] = toleranceOf(name);
  const mass: WortScale["mass"] = (volumeUnit, massUnit) => {
    const size = numberFrom("EXTRACT.MASS", 1, 1.05, volumeUnit, massUnit);
    const constants = { volume: 1, volume_unit: volumeUnit, mass_unit: massUnit, scale: name };
    return piece("EXTRACT.MASS", "gravity", constants, interval, size * 1e-6);
  };
  return {
    name,
    interval,
    read: isPlato ? (x) => x : gravityAsWritten,
    extract: isPlato ? (x) => x : extractPiece().of,
    density: piece("CONVERT", "value", { from: name, to: "KGM3" }, interval, 1e-6),
    mass,
    back: isPlato ? itself : gravityPiece(),
    isWort: (x) => [above(x, constant(isPlato ? 0 : 1)), ...mass().holds(x)],
    tolerance,
    unit,
  };
}

/** A gravity of wort. */
export const wortInput = (call: FoldedCall, parameter: string): Input => ({
  parameter,
  whenEmpty: "blank-or-0",
  interval: wortScaleLive(call).interval,
});
