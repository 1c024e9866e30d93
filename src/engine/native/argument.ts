import { elementAt, Values, type FormulaValue, type Scalar } from "../values.js";

/**
 * An argument of a function, with its cells already read. A reference to one cell stays a matrix of one value: some
 * functions skip certain values in cells, but not literals in the formula. Undefined if omitted, null if left empty
 * between two commas.
 */
export type Argument = Scalar | Values | undefined;

/** A calculation whose result is known to differ in Excel, or in one of its languages, so it is not done here. */
export class NotHere extends Error {
  override readonly name = "NotHere";
}

/** An array that is not a reference: a literal in the formula, or calculated by it. */
export class InlineArray extends Values {}

/** The single value of an argument that is not a range of several. */
export function single(argument: Argument): Scalar | undefined {
  return argument instanceof Values ? argument.at(0, 0) : argument;
}

export function isSeveral(argument: Argument): argument is Values {
  return argument instanceof Values && (argument.height > 1 || argument.width > 1);
}

/** An argument as rows of values; a single value is one row of one. */
export function rowsOf(argument: Argument): readonly (readonly Scalar[])[] {
  return argument instanceof Values ? argument.rows : [[argument ?? null]];
}

/** All values of an argument, row by row. */
export function cellsOf(argument: Argument): readonly Scalar[] {
  return rowsOf(argument).flat();
}

/** Calls a function for each place of the arguments' common shape, broadcasting rows, columns and single values. */
export function broadcast(
  args: readonly Argument[],
  f: (...values: (Scalar | undefined)[]) => Scalar,
): FormulaValue {
  if (!args.some(isSeveral)) return f(...args.map(single));
  const matrices = args.filter(isSeveral);
  const height = Math.max(...matrices.map((matrix) => matrix.height));
  const width = Math.max(...matrices.map((matrix) => matrix.width));
  return new Values(
    Array.from({ length: height }, (_, row) =>
      Array.from({ length: width }, (_, column) =>
        f(...args.map((argument) => (argument === undefined ? undefined : elementAt(argument, row, column)))),
      ),
    ),
  );
}
