// One cell of a result, without calculating the thousands that may surround it.
import type { InstrumentSet } from "../instruments/set.js";
import { at, commonShape, shapeOf } from "./contract/broadcast.js";
import { matrix } from "./contract/call.js";
import { specNamed } from "./catalogue.js";
import { cellContent, type RawCells, type Result, type Shape } from "./contract/cell-value.js";
import { inCell } from "./contract/define.js";
import { evaluate } from "./evaluate.js";
import type { FunctionSpec } from "./contract/function-spec.js";

/** The arguments that one cell of a result depends on, and its place in their result. */
export interface PartOfResult {
  readonly args: readonly RawCells[];
  readonly row: number;
  readonly column: number;
}

/**
 * Selects the arguments that a cell depends on: for a function that works by cell or by row, those of its own place.
 * For all others, and if the shapes do not match, all of them.
 */
export function partFor(
  { goesBy, parameters }: FunctionSpec,
  args: readonly RawCells[],
  row: number,
  column: number,
): PartOfResult {
  const whole = { args, row, column };
  if (!goesBy) return whole;
  const shape = inCell(() => commonShape(args));
  if ("code" in shape || row >= shape.rows || (goesBy === "cell" && column >= shape.columns)) return whole;
  // The function decides whether a row has only one cell.
  if (goesBy === "row" && shape.columns > 1) return whole;
  const across = goesBy === "cell" ? column : 0;
  // An empty cell among names of instruments need not mean the same as one by itself.
  const isAmongNames = (cells: RawCells): boolean =>
    isEmpty(at(cells, row, across)) && !cells.flat().every(isEmpty);
  if (args.some((cells, i) => parameters[i]?.namesInstrument === true && isAmongNames(cells))) return whole;
  return { args: args.map((cells) => [[at(cells, row, across)]]), row: 0, column: column - across };
}

function isEmpty(cell: unknown): boolean {
  const content = cellContent(cell);
  return content === undefined || content === 0;
}

/**
 * Rows and columns of a result, calculating no more than necessary.
 *
 * @param name without its namespace
 * @throws RangeError if there is no such function
 */
export function resultShape(name: string, args: readonly unknown[], set: InstrumentSet): Shape {
  const spec = specNamed(name);
  const all = spec.parameters.map((_, i) => matrix(args[i]));
  const shape = inCell(() => commonShape(all));
  if (!spec.goesBy || "code" in shape) return shapeOf(evaluate(name, args, set));
  if (spec.goesBy === "cell") return shape;
  const { args: first } = partFor(spec, all, 0, 0);
  return { rows: shape.rows, columns: shapeOf(evaluate(name, first, set)).columns };
}

/**
 * The value of one cell of a result.
 *
 * @param name without its namespace
 * @param row @param column of the result, from 0
 * @throws RangeError if there is no such function
 */
export function resultAt(
  name: string,
  args: readonly unknown[],
  row: number,
  column: number,
  set: InstrumentSet,
): Result {
  const spec = specNamed(name);
  const part = partFor(
    spec,
    spec.parameters.map((_, i) => matrix(args[i])),
    row,
    column,
  );
  return evaluate(name, part.args, set)[part.row]?.[part.column] ?? "";
}
