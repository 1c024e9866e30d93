import type { InstrumentSet } from "../instruments/set.js";
import { matrix } from "./contract/call.js";
import { specNamed } from "./catalogue.js";
import type { RawCells, Result } from "./contract/cell-value.js";
import { evaluate } from "./evaluate.js";
import type { FunctionSpec } from "./contract/function-spec.js";

/** Arguments for the function that gives the uncertainty of a result; undefined if it needs more than the call has. */
export function uncertaintyArguments(
  { uncertainty, parameters }: Pick<FunctionSpec, "uncertainty" | "parameters">,
  args: readonly RawCells[],
): readonly RawCells[] | undefined {
  return uncertainty?.from?.map(
    (wanted) => args[parameters.findIndex(({ name }) => name === wanted)] ?? [[undefined]],
  );
}

/**
 * Expanded uncertainty (k = 2) of each cell of a result, in the units of the result.
 *
 * @param name without its namespace
 * @param args cells, ranges as rows of cells, or undefined for an omitted argument
 * @returns undefined if no function gives it, or if that function needs more arguments than the call has
 * @throws RangeError if there is no such function
 */
export function plusMinus(
  name: string,
  args: readonly unknown[],
  set: InstrumentSet,
): Result[][] | undefined {
  const spec = specNamed(name);
  const matrices = uncertaintyArguments(
    spec,
    spec.parameters.map((_, i) => matrix(args[i])),
  );
  return spec.uncertainty && matrices && evaluate(spec.uncertainty.by, matrices, set);
}
