import { FormulaError, type Scalar } from "../values.js";
import { type Argument, isSeveral, broadcast, single } from "./argument.js";
import { number } from "./convert.js";
import { badValue, type NativeFunction, notAvailable, ofArrays, ofValues } from "./define.js";

/** A test of any value, errors included. */
function asks(name: string, f: (value: Scalar) => Scalar): NativeFunction {
  return ofArrays(name, [1, 1], (argument: Argument) => broadcast([argument], (value) => f(value ?? null)));
}

const isError = (value: Scalar): value is FormulaError => value instanceof FormulaError;

/** Requires a number; neither a logical value nor an empty argument will do. */
function parity(name: string, isIt: (whole: number) => boolean): NativeFunction {
  return asks(name, (value) => {
    if (typeof value === "boolean") return badValue;
    const read = number(value);
    return read instanceof FormulaError ? read : isIt(Math.trunc(Math.abs(read)));
  });
}

/** The numbers that ERROR.TYPE gives to errors. */
const errorTypes: ReadonlyMap<string, number> = new Map([
  ["#NULL!", 1],
  ["#DIV/0!", 2],
  ["#VALUE!", 3],
  ["#REF!", 4],
  ["#NAME?", 5],
  ["#NUM!", 6],
  ["#N/A", 7],
  ["#SPILL!", 9],
  ["#CALC!", 14],
]);

function typeOf(value: Scalar): number {
  if (isError(value)) return 16;
  return typeof value === "string" ? 2 : typeof value === "boolean" ? 4 : 1;
}

export const informationFunctions: readonly NativeFunction[] = [
  asks("ISBLANK", (value) => value === null),
  asks("ISNUMBER", (value) => typeof value === "number"),
  asks("ISTEXT", (value) => typeof value === "string"),
  asks("ISNONTEXT", (value) => typeof value !== "string"),
  asks("ISLOGICAL", (value) => typeof value === "boolean"),
  asks("ISERROR", isError),
  asks("ISERR", (value) => isError(value) && value.error !== "#N/A"),
  asks("ISNA", (value) => isError(value) && value.error === "#N/A"),
  parity("ISEVEN", (whole) => whole % 2 === 0),
  parity("ISODD", (whole) => whole % 2 === 1),
  asks("ERROR.TYPE", (value) =>
    isError(value) ? (errorTypes.get(value.error) ?? notAvailable) : notAvailable,
  ),
  ofArrays("TYPE", [1, 1], (argument) => (isSeveral(argument) ? 64 : typeOf(single(argument) ?? null))),
  asks("N", (value) => (isError(value) ? value : typeof value === "string" ? 0 : Number(value))),
  asks("T", (value) => (isError(value) || typeof value === "string" ? value : "")),
  ofValues("NA", [], () => notAvailable),
];
