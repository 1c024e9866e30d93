import { inCell } from "./define.js";
import { cellContent, CellError, type RawCells, type Result } from "./cell-value.js";
import type { FunctionSpec } from "./function-spec.js";
import { areInstrumentsDue, instrumentsOrTimeout } from "./instruments-port.js";
import { unknownFailure } from "./messages.js";

const isArray = (row: unknown): row is readonly unknown[] => Array.isArray(row);

/** A host may pass a single cell as it is, or nothing at all. */
export function matrix(argument: unknown): RawCells {
  if (!Array.isArray(argument)) return [[argument]];
  const rows: RawCells = argument.every(isArray)
    ? argument
    : argument.map((row): readonly unknown[] => (Array.isArray(row) ? row : [row]));
  return rows.length === 0 || rows[0]?.length === 0 ? [[undefined]] : rows;
}

const isNoNumber = (result: Result): boolean => typeof result === "number" && !Number.isFinite(result);

/** Final check before cells go out: NaN must not become 0 on its way. */
function finished(row: Result[]): Result[] {
  for (const result of row)
    if (isNoNumber(result))
      return row.map((each) => (isNoNumber(each) ? new CellError("#VALUE!", unknownFailure) : each));
  return row;
}

function calculate(spec: FunctionSpec, args: readonly RawCells[]): Result[][] {
  try {
    const result = inCell(() => spec.calculate(args));
    return result instanceof CellError ? [[result]] : result.map(finished);
  } catch {
    return [[new CellError("#VALUE!", unknownFailure)]];
  }
}

const namesAny = (cells: RawCells | undefined): boolean =>
  cells?.some((row) => row.some((cell) => typeof cellContent(cell) === "string")) ?? false;

/**
 * Calls a function with the arguments from a host. Never throws and always returns cells; it waits only if an
 * instrument is named and the host has not provided the instruments yet.
 */
export function call(spec: FunctionSpec, args: readonly unknown[]): Result[][] | Promise<Result[][]> {
  const matrices = spec.parameters.map((_, i) => matrix(args[i]));
  const mustWait =
    areInstrumentsDue() && spec.parameters.some((p, i) => p.namesInstrument && namesAny(matrices[i]));
  return mustWait ? instrumentsOrTimeout().then(() => calculate(spec, matrices)) : calculate(spec, matrices);
}

/**
 * Calls a function with single cells, as `call` does, but without the cost of ranges.
 *
 * @returns undefined for a function that does not work cell by cell, and while instruments are still awaited
 */
export function callInPlace(
  { inPlace, parameters }: FunctionSpec,
  args: readonly unknown[],
): Result | undefined {
  if (!inPlace || areInstrumentsDue()) return undefined;
  try {
    const [result] = finished([inPlace(parameters.map((_, i) => cellContent(args[i])))]);
    return result;
  } catch {
    return new CellError("#VALUE!", unknownFailure);
  }
}
