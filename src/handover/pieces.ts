import { gravityRange } from "../core/gravity.js";
import { wortRange } from "../core/extract-mass.js";
import { specNamed } from "../functions/catalogue.js";
import { evaluate } from "../functions/evaluate.js";
import { noInstruments } from "../instruments/set.js";
import type { Extent } from "./chebyshev-fit.js";
import { conditionOn, substituted, type Condition, type Expression } from "./expression.js";
import { resultsOf, type FoldedCall } from "./live-function.js";
import { fitOne, type Fit } from "./smooth-fit.js";

/** A cell function of one number, as a polynomial that larger formulas are put together from. */
export interface Piece {
  readonly of: (x: Expression) => Expression;
  /** Where the cell function answers. */
  readonly holds: (x: Expression) => readonly Condition[];
}

const known = new Map<string, Piece>();

/**
 * A cell function of one of its parameters, all others held.
 *
 * @param bar so fine that it is lost in what is put together
 */
export function piece(
  name: string,
  parameter: string,
  constants: FoldedCall["constants"],
  extent: Extent,
  bar: number,
): Piece {
  const key = JSON.stringify([name, parameter, constants]);
  const before = known.get(key);
  if (before) return before;
  const call = {
    name,
    parameters: specNamed(name).parameters.map((each) => each.name),
    constants,
    inputs: [parameter],
    instruments: noInstruments,
  };
  const fit: Fit | undefined = fitOne(resultsOf(call), extent, { bar });
  if (!fit) throw new RangeError(`${name} has no polynomial within ${bar}.`);
  const made: Piece = {
    of: (x) => substituted(fit.result, [x]),
    holds: (x) => fit.conditions.map((condition) => conditionOn(condition, [x])),
  };
  known.set(key, made);
  return made;
}

/** °P of a gravity. */
export const extractPiece = (): Piece =>
  piece("CONVERT", "value", { from: "SG", to: "P" }, gravityRange, 2e-7);

/** Gravity of °P. A 0 counts as an empty cell there, which a fit steps over. */
export const gravityPiece = (): Piece => piece("CONVERT", "value", { from: "P", to: "SG" }, wortRange, 1e-6);

/** Density, kg/m³, of a gravity. */
export const densityPiece = (): Piece =>
  piece("CONVERT", "value", { from: "SG", to: "KGM3" }, gravityRange, 1e-6);

/** One number that a cell function gives. */
export function numberOf(name: string, ...args: readonly unknown[]): number {
  const [[result] = []] = evaluate(name, args, noInstruments);
  if (typeof result !== "number") throw new RangeError(`${name} gives no number for this.`);
  return result;
}
