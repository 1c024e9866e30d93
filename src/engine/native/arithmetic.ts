import { FormulaError, type Scalar } from "../values.js";
import { type Argument, cellsOf, NotHere } from "./argument.js";
import { number, optional, strictNumber, whole } from "./convert.js";
import {
  badNumber,
  badValue,
  divisionByZero,
  MANY,
  type NativeFunction,
  ofArrays,
  ofValues,
} from "./define.js";

function ofNumber(name: string, f: (x: number) => Scalar): NativeFunction {
  return ofValues(name, [number], f);
}

/** Excel refuses larger angles; others calculate with the digits that are left of them. */
const LARGEST_ANGLE = 2 ** 27;

function ofAngle(name: string, f: (x: number) => number): NativeFunction {
  return ofNumber(name, (x) => {
    if (Math.abs(x) >= LARGEST_ANGLE) throw new NotHere(`${name} is given a very large angle`);
    return f(x);
  });
}

function factorial(n: number): number {
  let product = 1;
  for (let i = 2; i <= n; i++) product *= i;
  return product;
}

/** n over k, multiplied step by step so that no factorial overflows. */
function combinations(n: number, k: number): Scalar {
  if (n < 0 || k < 0 || k > n) return badNumber;
  let product = 1;
  for (let i = 1; i <= Math.min(k, n - k); i++) product = (product * (n - i + 1)) / i;
  return Math.round(product);
}

function permutations(n: number, k: number): Scalar {
  if (n <= 0 || k < 0 || k > n) return badNumber;
  let product = 1;
  for (let i = 0; i < k; i++) product *= n - i;
  return product;
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}

/** Folds whole numbers from 0 on. Blank cells are 0; text and logical values are refused. */
function ofWholes(name: string, fold: (a: number, b: number) => number): NativeFunction {
  return ofArrays(name, [1, MANY], (...args: readonly Argument[]) => {
    let result: number | undefined;
    for (const value of args.flatMap(cellsOf)) {
      if (value === null) continue;
      if (typeof value === "boolean") return badValue;
      const read = whole(value);
      if (read instanceof FormulaError) return read;
      if (read < 0 || read > 2 ** 53) return badNumber;
      result = result === undefined ? read : fold(result, read);
    }
    return result ?? 0;
  });
}

export const arithmeticFunctions: readonly NativeFunction[] = [
  ofNumber("ABS", Math.abs),
  ofNumber("SIGN", (x) => Math.sign(x)),
  ofNumber("SQRT", (x) => (x < 0 ? badNumber : Math.sqrt(x))),
  ofNumber("EXP", Math.exp),
  ofNumber("LN", (x) => (x <= 0 ? badNumber : Math.log(x))),
  ofNumber("LOG10", (x) => (x <= 0 ? badNumber : Math.log10(x))),
  ofValues("LOG", [number, optional(number, 10)], logarithm, 1),
  ofValues("PI", [], () => Math.PI),
  ofAngle("SIN", Math.sin),
  ofAngle("COS", Math.cos),
  ofAngle("TAN", Math.tan),
  ofNumber("ASIN", (x) => (Math.abs(x) > 1 ? badNumber : Math.asin(x))),
  ofNumber("ACOS", (x) => (Math.abs(x) > 1 ? badNumber : Math.acos(x))),
  ofNumber("ATAN", Math.atan),
  ofValues("ATAN2", [number, number], (x, y) => (x === 0 && y === 0 ? divisionByZero : Math.atan2(y, x))),
  ofNumber("SINH", Math.sinh),
  ofNumber("COSH", Math.cosh),
  ofNumber("TANH", Math.tanh),
  ofNumber("DEGREES", (x) => (x * 180) / Math.PI),
  ofNumber("RADIANS", (x) => (x * Math.PI) / 180),
  ofValues("FACT", [whole], (n) => (n < 0 || n > 170 ? badNumber : factorial(n))),
  ofValues("COMBIN", [whole, whole], combinations),
  ofValues("PERMUT", [whole, whole], permutations),
  ofValues("QUOTIENT", [strictNumber, strictNumber], (a, b) =>
    b === 0 ? divisionByZero : Math.trunc(a / b),
  ),
  ofValues("MOD", [number, number], remainder),
  ofWholes("GCD", commonDivisor),
  ofWholes("LCM", (a, b) => (a === 0 || b === 0 ? 0 : (a / commonDivisor(a, b)) * b)),
];

function logarithm(x: number, base: number): Scalar {
  if (x <= 0 || base <= 0) return badNumber;
  if (base === 1) return divisionByZero;
  if (base === 10) return Math.log10(x);
  return base === 2 ? Math.log2(x) : Math.log(x) / Math.log(base);
}

/** With the sign of the divisor. */
function remainder(a: number, b: number): Scalar {
  if (b === 0) return divisionByZero;
  const rest = a - b * Math.floor(a / b);
  return Math.abs(rest) >= Math.abs(b) ? 0 : rest;
}
