import { CellError, type Scalar } from "../values.js";

/** A value in a sentence. */
export function shown(value: Scalar): string {
  if (value === null) return "nothing";
  if (value instanceof CellError) return value.error;
  return typeof value === "string" ? `"${value}"` : String(value).toUpperCase();
}
