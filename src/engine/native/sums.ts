import { FormulaError, Values, type Scalar } from "../values.js";
import { type Argument, cellsOf, NotHere, rowsOf } from "./argument.js";
import { numberIn } from "./convert.js";
import { badValue, divisionByZero, MANY, type NativeFunction, ofArrays } from "./define.js";
import { mean, numbersOf, type NonNumbers, total } from "./numbers.js";

/**
 * A function of all numbers of its arguments.
 *
 * @param takesOthers whether all programs treat text and logical literals alike
 */
export function ofNumbers(
  name: string,
  f: (numbers: readonly number[]) => Scalar,
  others: NonNumbers = "pass over",
  takesOthers = false,
): NativeFunction {
  return ofArrays(name, [1, MANY], (...args) => {
    const other = takesOthers
      ? undefined
      : args.find((each) => typeof each === "string" || typeof each === "boolean");
    if (other !== undefined)
      throw new NotHere(`${name} is given ${typeof other === "string" ? "a text" : "a truth"}`);
    const numbers = numbersOf(args, others);
    return numbers instanceof FormulaError ? numbers : f(numbers);
  });
}

const average = (numbers: readonly number[]): Scalar =>
  numbers.length === 0 ? divisionByZero : mean(numbers);

const greatest = (numbers: readonly number[]): number => numbers.reduce((a, b) => Math.max(a, b), -Infinity);
const least = (numbers: readonly number[]): number => numbers.reduce((a, b) => Math.min(a, b), Infinity);

/** Of no numbers at all, 0. */
const orZero =
  (f: (numbers: readonly number[]) => number) =>
  (numbers: readonly number[]): number =>
    numbers.length === 0 ? 0 : f(numbers);

function counts(name: string, isCounted: (value: Scalar, written: boolean) => boolean): NativeFunction {
  return ofArrays(name, [1, MANY], (...args) =>
    total(
      args.map((argument) => {
        const written = !(argument instanceof Values);
        return cellsOf(argument).filter((value) => isCounted(value, written)).length;
      }),
    ),
  );
}

/**
 * In cells only numbers count as numbers; of literals so do logical values, text that spells a number and empty
 * arguments.
 */
function isNumber(value: Scalar, written: boolean): boolean {
  if (typeof value === "number") return true;
  if (!written || value instanceof FormulaError) return false;
  return typeof value === "string" ? typeof numberIn(value) === "number" : true;
}

function sumOfProducts(...args: readonly Argument[]): Scalar {
  const arrays = args.map(rowsOf);
  const [first] = arrays;
  if (arrays.some((rows) => rows.length !== first?.length || rows[0]?.length !== first[0]?.length))
    return badValue;
  let sum = 0;
  const lists = arrays.map((rows) => rows.flat());
  for (const [place] of (lists[0] ?? []).entries()) {
    let product = 1;
    for (const list of lists) {
      const value = list[place] ?? null;
      if (value instanceof FormulaError) return value;
      // Logical values and text by themselves count as 0, whatever they spell.
      product *= typeof value === "number" ? value : 0;
    }
    sum += product;
  }
  return sum;
}

export const sumFunctions: readonly NativeFunction[] = [
  ofNumbers("SUM", total, "pass over", true),
  ofNumbers("SUMSQ", (numbers) => total(numbers.map((x) => x * x))),
  ofNumbers(
    "PRODUCT",
    orZero((numbers) => numbers.reduce((product, x) => product * x, 1)),
    "pass over",
    true,
  ),
  ofNumbers("AVERAGE", average, "pass over", true),
  ofNumbers("AVERAGEA", average, "count as numbers"),
  ofNumbers("MAX", orZero(greatest)),
  ofNumbers("MIN", orZero(least)),
  ofNumbers("MAXA", orZero(greatest), "count as numbers"),
  ofNumbers("MINA", orZero(least), "count as numbers"),
  counts("COUNT", isNumber),
  counts("COUNTA", (value, written) => value !== null || written),
  ofArrays("COUNTBLANK", [1, 1], (range) => {
    if (!(range instanceof Values)) throw new NotHere("COUNTBLANK counts in a range of cells");
    return cellsOf(range).filter((value) => value === null || value === "").length;
  }),
  ofArrays("SUMPRODUCT", [1, MANY], sumOfProducts),
];
