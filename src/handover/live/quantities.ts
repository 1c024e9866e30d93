import { extractRange, gravityRange } from "../../core/liquid/gravity.js";
import { findInstrument } from "../../instruments/find.js";
import type { Profile } from "../../instruments/schema.js";
import type { Interval } from "../fit/interval.js";
import {
  conditionOn,
  constant,
  input,
  substituted,
  gravityAsWritten,
  type Expression,
} from "../fit/expression.js";
import { resultsOf, type FoldedCall, type Input } from "./live-function.js";
import { givesNoNumber, NotLive } from "./not-live.js";
import { fitOne, fitTwo, type SmoothFit, type Results, type Wanted } from "../fit/smooth-fit.js";

export const SG_TOLERANCE = 0.000_02;
export const P_TOLERANCE = 0.005; // °P, equivalent in extract

/** Tolerance of a gravity on each scale. */
const scaleTolerances: Readonly<Record<string, readonly [tolerance: number, unit: string]>> = {
  SG: [SG_TOLERANCE, "SG"],
  SG60: [SG_TOLERANCE, "SG"],
  P: [P_TOLERANCE, "°P"],
  BX: [P_TOLERANCE, "°Bx"],
  PTS: [1000 * SG_TOLERANCE, "points"],
  KGM3: [1000 * SG_TOLERANCE, "kg/m³"],
};

export const word = (call: FoldedCall, parameter: string, otherwise: string): string => {
  const given = String(call.constants[parameter] ?? "")
    .trim()
    .toUpperCase();
  return given === "" || given === "0" ? otherwise : given;
};

export const toleranceOf = (scale: string): readonly [number, string] =>
  scaleTolerances[scale] ?? [SG_TOLERANCE, "SG"];

/** What a smooth function needs to know of one of its numbers. */
export interface InputQuantity extends Input {
  /** The number as the fit takes it. */
  readonly of: (raw: Expression) => Expression;
  readonly fitted: Interval;
}

export const plainInput = (
  parameter: string,
  interval: Interval,
  whenEmpty: Input["whenEmpty"] = "blank-or-0",
): InputQuantity => ({
  parameter,
  whenEmpty,
  interval,
  of: (raw) => raw,
  fitted: interval,
});

export const asGravity = (parameter: string, interval: Interval = gravityRange): InputQuantity => ({
  ...plainInput(parameter, interval),
  of: gravityAsWritten,
});

/** A gravity on the scale of the formula. On °P, a final gravity of 0 is ambiguous. */
export const gravityOn = (call: FoldedCall, parameter: string, isFinal = false): InputQuantity =>
  word(call, "scale", "SG") === "P"
    ? plainInput(parameter, extractRange, isFinal ? "blank" : "blank-or-0")
    : asGravity(parameter);

export interface Recipe extends Omit<Wanted, "title" | "names"> {
  readonly unit: string;
  /** At most two. The bounds of the second depend on the first. */
  readonly numbers: readonly InputQuantity[];
}

export const named = (call: FoldedCall): Profile | undefined => {
  const name = call.constants["instrument"];
  return name === undefined || name === 0 ? undefined : findInstrument(call.instruments, String(name));
};

/** The numbers that are inputs, in order. */
export function inputsOf(call: FoldedCall, numbers: readonly InputQuantity[]): InputQuantity[] {
  const found = numbers.filter(({ parameter }) => call.inputs.includes(parameter));
  if (found.length < call.inputs.length)
    throw new NotLive("it takes more from cells than such a formula can hold");
  return found;
}

/** Result of a function whose arguments are all folded in. */
function onlyResult(results: Results): number {
  const [value] = results([[]]);
  if (value === undefined) throw givesNoNumber();
  return value;
}

export function fitted(call: FoldedCall, numbers: readonly InputQuantity[], recipe: Recipe): SmoothFit {
  const results = resultsOf({ ...call, inputs: numbers.map(({ parameter }) => parameter) });
  const [x, y] = numbers;
  if (!x) return { result: constant(onlyResult(results)), conditions: [] };
  const names = numbers.map(({ parameter }) => parameter);
  const wanted = { ...recipe, title: recipe.unit, names };
  const fit = y ? fitTwo(results, x.fitted, y.fitted, wanted) : fitOne(results, x.fitted, wanted);
  if (!fit) throw new NotLive(`no polynomial comes within ${recipe.tolerance} ${recipe.unit} of it`);
  const variables = numbers.map(({ of }, i) => of(input(i)));
  return {
    result: substituted(fit.result, variables),
    conditions: fit.conditions.map((condition) => conditionOn(condition, variables)),
  };
}
