import { catalogue } from "../../functions/catalogue.js";
import { call, callInPlace } from "../../functions/contract/call.js";
import { CellError as OwnError, type Result } from "../../functions/contract/cell-value.js";
import { type FunctionSpec, NAMESPACE } from "../../functions/contract/function-spec.js";
import { instrumentsInVain } from "../../functions/contract/instruments-port.js";
import { metadata } from "../../functions/metadata.js";
import { FormulaError, formulaErrors, finite, Values, type FormulaValue, type Scalar } from "../values.js";
import { CellFunctions } from "./cell-functions.js";
import type { ReadArgument } from "./argument.js";
import { DirectFunction } from "./direct-function.js";
import type { FunctionMetadata } from "./function-metadata.js";

/** All our functions, called directly: no bundle is loaded, and nothing passes through a host's objects. */
export function catalogueFunctions(): CellFunctions {
  const direct = new Map(
    catalogue.map((spec) => [spec.name, new DirectFunction((given) => called(spec, given))]),
  );
  return new CellFunctions(metadata("") as FunctionMetadata, direct, NAMESPACE, instrumentsInVain);
}

function called(spec: FunctionSpec, given: readonly ReadArgument[]): FormulaValue | Promise<FormulaValue> {
  const args = given.map(handedOver);
  const single = args.some(Array.isArray) ? undefined : callInPlace(spec, args);
  if (single !== undefined) return scalarOf(single);
  const results = call(spec, args);
  return results instanceof Promise ? results.then(outcomeOf) : outcomeOf(results);
}

/** An argument as hosts pass it: blanks are null, an error is an object with its code. */
function handedOver(argument: ReadArgument): unknown {
  if (argument instanceof Values)
    return argument.rows.some((row) => row.some(isError))
      ? argument.rows.map((row) => row.map(asHostError))
      : argument.rows;
  return asHostError(argument ?? null);
}

const isError = (value: Scalar): boolean => value instanceof FormulaError;
const asHostError = (value: Scalar): unknown =>
  value instanceof FormulaError ? { code: value.error } : value;

function outcomeOf(results: readonly (readonly Result[])[]): FormulaValue {
  const [first] = results;
  if (results.length === 1 && first?.length === 1) return scalarOf(first[0]);
  const width = results.reduce((widest, row) => Math.max(widest, row.length), 0);
  if (width === 0) return formulaErrors.value;
  return new Values(
    results.map((row) =>
      Array.from({ length: width }, (_, column) =>
        column < row.length ? scalarOf(row[column]) : formulaErrors.notAvailable,
      ),
    ),
  );
}

function scalarOf(result: Result | undefined): Scalar {
  if (typeof result === "number") return finite(result);
  if (result instanceof OwnError) return new FormulaError(result.code, result.message);
  return result ?? null;
}
