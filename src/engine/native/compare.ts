import type { FormulaError, Scalar } from "../values.js";

type Comparable = Exclude<Scalar, FormulaError>;

/** Numbers come before text, text before logical values. */
const ranks: Readonly<Record<string, number>> = { number: 0, string: 1, boolean: 2 };

const letters = new Intl.Collator("en", { sensitivity: "accent" });

/**
 * Whether two numbers are equal to a spreadsheet, which shows and compares 15 digits: 0.1 + 0.2 is 0.3. The tolerance
 * covers the last bits that a sum of a few numbers leaves.
 */
export function nearlyEqual(a: number, b: number): boolean {
  return a === b || Math.abs(a - b) < Math.abs(a) * 2 ** -48;
}

/**
 * Negative if the first value comes first, 0 if they are equal. A blank counts as 0, "" or FALSE, whichever matches the
 * other.
 */
export function compareValues(a: Comparable, b: Comparable): number {
  const left = a ?? blankBeside(b);
  const right = b ?? blankBeside(a);
  if (typeof left === "number" && typeof right === "number")
    return nearlyEqual(left, right) ? 0 : left - right;
  if (typeof left === "string" && typeof right === "string") return compareTexts(left, right);
  if (typeof left === "boolean" && typeof right === "boolean") return Number(left) - Number(right);
  return (ranks[typeof left] ?? 0) - (ranks[typeof right] ?? 0);
}

/** Ignores case. */
export function compareTexts(a: string, b: string): number {
  return a === b ? 0 : letters.compare(a, b);
}

function blankBeside(other: Comparable): number | string | boolean {
  return typeof other === "string" ? "" : typeof other === "boolean" ? false : 0;
}

/** Equality for look-ups, within one type: a blank equals nothing, and text is not the number it spells. */
export function isSameValue(a: Comparable, b: Comparable): boolean {
  return a !== null && b !== null && typeof a === typeof b && compareValues(a, b) === 0;
}
