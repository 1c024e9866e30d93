import type { ReadArgument } from "./argument.js";
import type { CellFunction } from "./cell-functions.js";
import { CustomFunctionsError } from "./custom-functions.js";
import { DirectFunction } from "./direct-function.js";
import type { DeclaredParameter } from "./function-metadata.js";
import { functionBroke, functionMissing } from "../messages.js";
import {
  FormulaError,
  elementAt,
  formulaErrors,
  finite,
  Values,
  type FormulaValue,
  type Scalar,
} from "../values.js";

/** Cancels a call: an error that a parameter does not accept becomes the result. */
class Stop extends Error {
  constructor(readonly error: FormulaError) {
    super(error.error);
  }
}

/** Error codes that Office lets a function return; others arrive in the cell as #VALUE!. */
const givable = new Set(["#VALUE!", "#N/A", "#DIV/0!", "#NUM!", "#NULL!"]);

/**
 * Calls one of our functions by Excel's rules: arguments are converted to the declared types, an array for a
 * single-valued parameter causes one call per element, and an error thrown or returned becomes the value of the cell.
 */
export function callFunction(
  fn: CellFunction,
  given: readonly ReadArgument[],
): FormulaValue | Promise<FormulaValue> {
  const { parameters } = fn.declared;
  const implementation = fn.implementation;
  if (!implementation) return new FormulaError("#VALUE!", functionMissing(fn.name));
  const repeats = parameters.at(-1)?.repeating ?? false;
  if (given.length < fn.fewest || (!repeats && given.length > parameters.length)) return formulaErrors.value;
  if (implementation instanceof DirectFunction) return implementation.call(given);

  const failure = (thrown: unknown): FormulaError => {
    if (thrown instanceof Stop) return thrown.error;
    if (thrown instanceof CustomFunctionsError) return toCellError(thrown);
    return new FormulaError("#VALUE!", functionBroke(fn.name, thrown));
  };
  const call = (args: readonly ReadArgument[]): FormulaValue | Promise<FormulaValue> => {
    try {
      const values = parameters.map((parameter, i) =>
        parameter.repeating
          ? args.slice(i).map((argument) => toParameter(parameter, argument, fn.takesErrors))
          : toParameter(parameter, args[i], fn.takesErrors),
      );
      const result = implementation(...values);
      // The bundle's promise may belong to another realm; the one returned always belongs to this one.
      return isPromise(result) ? Promise.resolve(result).then(toOutcome, failure) : toOutcome(result);
    } catch (thrown) {
      return failure(thrown);
    }
  };

  const lifts = given.map(
    (argument, i) =>
      argument instanceof Values && !isMatrixParameter(parameters[Math.min(i, parameters.length - 1)]),
  );
  if (!lifts.includes(true)) return call(given);
  const sizes = given.filter((argument, i): argument is Values => lifts[i] === true);
  const cells = Array.from({ length: Math.max(...sizes.map((size) => size.height)) }, (_, row) =>
    Array.from({ length: Math.max(...sizes.map((size) => size.width)) }, (_, column) =>
      call(
        given.map((argument, i) =>
          lifts[i] && argument instanceof Values ? elementAt(argument, row, column) : argument,
        ),
      ),
    ),
  );
  return cells.flat().some((cell) => cell instanceof Promise)
    ? Promise.all(cells.map(async (row) => Promise.all(row.map(async (cell) => cell)))).then(gather)
    : gather(cells as FormulaValue[][]);
}

function gather(cells: readonly (readonly FormulaValue[])[]): Values {
  return new Values(cells.map((row) => row.map((cell) => (cell instanceof Values ? cell.at(0, 0) : cell))));
}

function isMatrixParameter(parameter: DeclaredParameter | undefined): boolean {
  return parameter?.dimensionality === "matrix";
}

function isPromise(value: unknown): value is Promise<unknown> {
  return typeof value === "object" && value !== null && "then" in value && typeof value.then === "function";
}

function toParameter(parameter: DeclaredParameter, argument: ReadArgument, takesErrors: boolean): unknown {
  if (argument === undefined) return null;
  if (!isMatrixParameter(parameter)) {
    return convert(parameter, argument instanceof Values ? argument.at(0, 0) : argument, takesErrors);
  }
  const rows = argument instanceof Values ? argument.rows : [[argument]];
  return rows.map((row) => row.map((value) => convert(parameter, value, takesErrors)));
}

function convert(parameter: DeclaredParameter, value: Scalar, takesErrors: boolean): unknown {
  const type = parameter.type ?? "any";
  if (value instanceof FormulaError) {
    if (type === "any" && takesErrors) return new CustomFunctionsError(value.error, value.message);
    throw new Stop(value);
  }
  switch (type) {
    case "number":
      return convertToNumber(value);
    case "string":
      return typeof value === "boolean" ? (value ? "TRUE" : "FALSE") : String(value ?? "");
    case "boolean":
      return typeof value === "string" ? value.toUpperCase() === "TRUE" : Boolean(value);
    default:
      return value;
  }
}

function convertToNumber(value: number | string | boolean | null): number {
  if (typeof value !== "string") return Number(value);
  const number = value.trim() === "" ? NaN : Number(value);
  if (Number.isNaN(number)) throw new Stop(formulaErrors.value);
  return number;
}

function toOutcome(result: unknown): FormulaValue {
  if (!Array.isArray(result)) return toScalar(result);
  const rows = result.map((row: unknown): Scalar[] =>
    Array.isArray(row) ? row.map(toScalar) : [toScalar(row)],
  );
  const width = rows.reduce((widest, row) => Math.max(widest, row.length), 0);
  if (width === 0) return formulaErrors.value;
  if (width === 1 && rows.length === 1) return rows[0]?.[0] ?? null;
  return new Values(
    rows.map((row) => [...row, ...Array<Scalar>(width - row.length).fill(formulaErrors.notAvailable)]),
  );
}

function toScalar(value: unknown): Scalar {
  if (typeof value === "number") return finite(value);
  if (typeof value === "string" || typeof value === "boolean") return value;
  if (value === undefined || value === null) return null;
  return value instanceof CustomFunctionsError ? toCellError(value) : formulaErrors.value;
}

function toCellError(error: CustomFunctionsError): FormulaError {
  return new FormulaError(givable.has(error.code) ? error.code : "#VALUE!", error.message);
}
