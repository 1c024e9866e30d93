import { FormulaError, type Scalar } from "../values.js";

/** A value for use in a sentence. */
export function shownScalar(value: Scalar): string {
  if (value === null) return "nothing";
  if (value instanceof FormulaError) return value.error;
  return typeof value === "string" ? `"${value}"` : String(value).toUpperCase();
}
