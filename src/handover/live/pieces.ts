import { gravityRange } from "../../core/liquid/gravity.js";
import { wortRange } from "../../core/brewhouse/extract-mass.js";
import { specNamed } from "../../functions/catalogue.js";
import { evaluate } from "../../functions/evaluate.js";
import { noInstruments } from "../../instruments/set.js";
import type { Interval } from "../fit/interval.js";
import { conditionOn, substituted, type InputCondition, type Expression } from "../fit/expression.js";
import { resultsOf, type FoldedCall } from "./live-function.js";
import { givesNoNumber } from "./not-live.js";
import { fitOne, fitTwo, type SmoothFit } from "../fit/smooth-fit.js";

/** A cell function of one number, as a polynomial from which larger formulas are composed. */
export interface FittedFunction {
  readonly of: (x: Expression) => Expression;
  /** The domain of the cell function. */
  readonly holds: (x: Expression) => readonly InputCondition[];
}

const known = new Map<string, FittedFunction>();

const callOf = (name: string, constants: FoldedCall["constants"], inputs: readonly string[]): FoldedCall => ({
  name,
  parameters: specNamed(name).parameters.map((each) => each.name),
  constants,
  inputs,
  instruments: noInstruments,
});

/**
 * A cell function of one of its parameters, all others constant.
 *
 * @param tolerance small enough not to matter in the composed formula
 */
export function piece(
  name: string,
  parameter: string,
  constants: FoldedCall["constants"],
  interval: Interval,
  tolerance: number,
): FittedFunction {
  const key = JSON.stringify([name, parameter, constants]);
  const before = known.get(key);
  if (before) return before;
  const fit: SmoothFit | undefined = fitOne(resultsOf(callOf(name, constants, [parameter])), interval, {
    tolerance,
    title: `${name} by ${parameter}`,
    names: [parameter],
  });
  if (!fit) throw givesNoNumber();
  const made: FittedFunction = {
    of: (x) => substituted(fit.result, [x]),
    holds: (x) => fit.conditions.map((condition) => conditionOn(condition, [x])),
  };
  known.set(key, made);
  return made;
}

/** °P of a gravity. */
export const extractPiece = (): FittedFunction =>
  piece("CONVERT", "value", { from: "SG", to: "P" }, gravityRange, 2e-7);

/** Gravity of °P. A 0 counts as an empty cell there, which the fit skips. */
export const gravityPiece = (): FittedFunction =>
  piece("CONVERT", "value", { from: "P", to: "SG" }, wortRange, 1e-6);

/** A cell function of two numbers, as a polynomial from which larger formulas are composed. */
export interface PairPiece {
  readonly of: (x: Expression, y: Expression) => Expression;
  readonly holds: (x: Expression, y: Expression) => readonly InputCondition[];
}

const knownPairs = new Map<string, PairPiece>();

/** Alcohol by mass, %, from an original and a present gravity on a scale. */
export function alcoholPiece(scale: string, interval: Interval): PairPiece {
  const before = knownPairs.get(scale);
  if (before) return before;
  const results = resultsOf(callOf("ABW", { scale }, ["original", "final"]));
  const names = ["original", "final"];
  const fit = fitTwo(results, interval, interval, {
    tolerance: 4e-4,
    title: "ABW by original and final",
    names,
  });
  if (!fit) throw givesNoNumber();
  const made: PairPiece = {
    of: (x, y) => substituted(fit.result, [x, y]),
    holds: (x, y) => fit.conditions.map((condition) => conditionOn(condition, [x, y])),
  };
  knownPairs.set(scale, made);
  return made;
}

/** A single number from a cell function. */
export function numberFrom(name: string, ...args: readonly unknown[]): number {
  const [[result] = []] = evaluate(name, args, noInstruments);
  if (typeof result !== "number") throw givesNoNumber();
  return result;
}
