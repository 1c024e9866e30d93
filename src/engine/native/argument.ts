import { elementAt, Values, type FormulaValue, type Scalar } from "../values.js";

/**
 * What a function is given, its cells already read. A reference to one cell stays a matrix of one value: some functions pass
 * over what stands in cells, but not over what is written into the formula. Left out, it is undefined; left empty
 * between two commas, null.
 */
export type Argument = Scalar | Values | undefined;

/** A calculation that is known to come out differently in Excel, or in one of its languages, so it is not done here. */
export class NotHere extends Error {
  override readonly name = "NotHere";
}

/** An array that stands in no cells: written into the formula, or calculated by it. */
export class InlineArray extends Values {}

/** The one value of an argument that is no range of several. */
export function single(argument: Argument): Scalar | undefined {
  return argument instanceof Values ? argument.at(0, 0) : argument;
}

export function isSeveral(argument: Argument): argument is Values {
  return argument instanceof Values && (argument.height > 1 || argument.width > 1);
}

/** An argument as rows of values; one value is one row of one. */
export function rowsOf(argument: Argument): readonly (readonly Scalar[])[] {
  return argument instanceof Values ? argument.rows : [[argument ?? null]];
}

/** All values of an argument, row by row. */
export function cellsOf(argument: Argument): readonly Scalar[] {
  return rowsOf(argument).flat();
}

/** Calls once for each place of the arguments' common shape: a row, a column or one value is repeated. */
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
