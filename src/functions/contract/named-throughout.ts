import type { ArgumentSpec } from "./argument.js";
import { cellContent, Unnamed, type RawCells } from "./cell-value.js";
import { unnamed } from "./messages.js";

const isEmpty = (raw: unknown): boolean => {
  const content = cellContent(raw);
  return content === undefined || content === 0;
};

/** Whether some cells of a range name something and others do not. */
export const namesSome = (matrix: RawCells): boolean =>
  matrix.some((row) => row.some(isEmpty)) && !matrix.every((row) => row.every(isEmpty));

/** A range with its empty cells marked, if other cells of it hold a name and the argument must be named throughout. */
export function namedThroughout(
  { label, namedThroughout: needed }: Pick<ArgumentSpec<unknown>, "label" | "namedThroughout">,
  matrix: RawCells,
): RawCells {
  if (needed !== true || !namesSome(matrix)) return matrix;
  return matrix.map((row) => row.map((raw) => (isEmpty(raw) ? new Unnamed("#VALUE!", unnamed(label)) : raw)));
}
