import { FormulaError, finite, type FormulaValue, type Scalar } from "../values.js";
import { type Argument, broadcast, NotHere } from "./argument.js";
import { compareValues, nearlyEqual } from "./compare.js";
import { number } from "./convert.js";
import { divisionByZero, type NativeFunction, ofValues } from "./define.js";

/** A difference in the last bits only is 0, as in Excel. */
function difference(a: number, b: number): number {
  return a !== 0 && nearlyEqual(a, b) ? 0 : a - b;
}

function power(base: number, exponent: number): number | FormulaError {
  // 0^0 is #NUM! in Excel and 1 in others, 0^-1 is #DIV/0! or #NUM!.
  if (base === 0 && exponent <= 0) throw new NotHere(`it takes 0 to the power of ${exponent}`);
  return finite(base ** exponent);
}

/** The operators, under the names by which the interpreter looks them up. */
export const operators: readonly NativeFunction[] = [
  ofValues("PLUS", [number, number], (a, b) => difference(a, -b)),
  ofValues("MINUS", [number, number], difference),
  ofValues("MULTIPLY", [number, number], (a, b) => a * b),
  ofValues("DIVIDED", [number, number], (a, b) => (b === 0 ? divisionByZero : a / b)),
  ofValues("POWER", [number, number], power),
];

const verdicts: Readonly<Record<string, (order: number) => boolean>> = {
  "=": (order) => order === 0,
  "<>": (order) => order !== 0,
  "<": (order) => order < 0,
  ">": (order) => order > 0,
  "<=": (order) => order <= 0,
  ">=": (order) => order >= 0,
};

/** Result of a comparison. An error on either side is the result, the left one first. */
export function compared(operator: string, left: Argument, right: Argument): FormulaValue {
  const verdict = verdicts[operator];
  if (!verdict) throw new Error(`no comparison: ${operator}`);
  return broadcast([left, right], (a = null, b = null): Scalar => {
    if (a instanceof FormulaError) return a;
    if (b instanceof FormulaError) return b;
    return verdict(compareValues(a, b));
  });
}
