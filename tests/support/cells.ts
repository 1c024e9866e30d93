import { call } from "../../src/functions/contract/call.js";
import { catalogue } from "../../src/functions/catalogue.js";
import type { CellError, Result } from "../../src/functions/contract/cell-value.js";
import type { FunctionSpec } from "../../src/functions/contract/function-spec.js";

export function functionNamed(name: string): FunctionSpec {
  const spec = catalogue.find((candidate) => candidate.name === name);
  if (!spec) throw new Error(`no function ${name}`);
  return spec;
}

/** All cells that a function gives; for one that does not have to wait. */
export function cells(name: string, ...args: readonly unknown[]): Result[][] {
  const results = call(functionNamed(name), args);
  if (results instanceof Promise) throw new Error(`${name} waits for instruments`);
  return results;
}

/** The only cell of a result. */
export function cell(name: string, ...args: readonly unknown[]): Result {
  const results = cells(name, ...args);
  if (results.length !== 1 || results[0]?.length !== 1) throw new Error(`${name} gave more than one cell`);
  return results[0][0] as Result;
}

/** The only cell as a number; NaN if it is none, so that no comparison with it can pass. */
export function number(name: string, ...args: readonly unknown[]): number {
  const result = cell(name, ...args);
  return typeof result === "number" ? result : NaN;
}

/** Code and message of the error in the only cell. */
export function error(name: string, ...args: readonly unknown[]): string {
  return errorText(cell(name, ...args));
}

export function errorText(result: Result | undefined): string {
  return isCellError(result) ? `${result.code} ${result.message}` : `no error but ${String(result)}`;
}

/** By its code, so that it holds for a second copy of the module too. */
function isCellError(result: Result | undefined): result is CellError {
  return result instanceof Error && "code" in result;
}

export const column = (...values: unknown[]): unknown[][] => values.map((value) => [value]);
