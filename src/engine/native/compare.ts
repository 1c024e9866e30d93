import type { FormulaError, Scalar } from "../values.js";

type Comparable = Exclude<Scalar, FormulaError>;

/** Numbers come before text, text before truth. */
const ranks: Readonly<Record<string, number>> = { number: 0, string: 1, boolean: 2 };

const letters = new Intl.Collator("en", { sensitivity: "accent" });

/**
 * Whether two numbers are one to a spreadsheet, which shows and compares 15 digits: 0.1 + 0.2 is 0.3.
 * The bound is the last bits that a sum of a few numbers leaves.
 */
export function nearlyEqual(a: number, b: number): boolean {
  return a === b || Math.abs(a - b) < Math.abs(a) * 2 ** -48;
}

/** Below 0 if the first value comes first, 0 if they are equal. A blank is the 0, "" or FALSE that the other one asks for. */
export function compareValues(a: Comparable, b: Comparable): number {
  const left = a ?? blankBeside(b);
  const right = b ?? blankBeside(a);
  if (typeof left === "number" && typeof right === "number")
    return nearlyEqual(left, right) ? 0 : left - right;
  if (typeof left === "string" && typeof right === "string") return compareTexts(left, right);
  if (typeof left === "boolean" && typeof right === "boolean") return Number(left) - Number(right);
  return (ranks[typeof left] ?? 0) - (ranks[typeof right] ?? 0);
}

/** Letters in either case are the same. */
export function compareTexts(a: string, b: string): number {
  return a === b ? 0 : letters.compare(a, b);
}

function blankBeside(other: Comparable): number | string | boolean {
  return typeof other === "string" ? "" : typeof other === "boolean" ? false : 0;
}

/** Two values of one kind that are equal, as a look-up wants it: a blank equals nothing, text is not the number it spells. */
export function isSameValue(a: Comparable, b: Comparable): boolean {
  return a !== null && b !== null && typeof a === typeof b && compareValues(a, b) === 0;
}
