import { FormulaError, Values, type Scalar } from "../values.js";
import { type Argument, cellsOf, NotHere, InlineArray } from "./argument.js";
import { number } from "./convert.js";

/** What a function does with cells that hold no numbers. */
export type NonNumbers = "pass over" | "count as numbers";

/**
 * The numbers of some arguments, in order. Literals must be numbers or spell one; in cells, text and logical values are
 * skipped, or count as 0 and 1. The first error is the result.
 */
export function numbersOf(
  args: readonly Argument[],
  others: NonNumbers = "pass over",
): number[] | FormulaError {
  const numbers: number[] = [];
  for (const argument of args) {
    if (!(argument instanceof Values)) {
      if (others === "count as numbers" && typeof argument === "string")
        throw new NotHere("text that is written into the formula is counted in different ways");
      const read = number(argument);
      if (read instanceof FormulaError) return read;
      numbers.push(read);
      continue;
    }
    for (const value of cellsOf(argument)) {
      if (value instanceof FormulaError) return value;
      if (typeof value === "boolean" && argument instanceof InlineArray)
        throw new NotHere("truths in an array are counted in different ways");
      const read = inCells(value, others);
      if (read !== undefined) numbers.push(read);
    }
  }
  return numbers;
}

function inCells(value: Scalar, others: NonNumbers): number | undefined {
  if (typeof value === "number") return value;
  if (others === "pass over" || value === null) return undefined;
  return value === true ? 1 : 0;
}

export function total(numbers: readonly number[]): number {
  return numbers.reduce((sum, x) => sum + x, 0);
}

export function mean(numbers: readonly number[]): number {
  return total(numbers) / numbers.length;
}

/** Sum of squared deviations from the mean. */
export function sumOfSquaredDeviations(numbers: readonly number[]): number {
  const centre = mean(numbers);
  return total(numbers.map((x) => (x - centre) ** 2));
}

export function ascending(numbers: readonly number[]): number[] {
  return [...numbers].sort((a, b) => a - b);
}
