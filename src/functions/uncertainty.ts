import type { InstrumentSet } from "../instruments/set.js";
import { matrix } from "./contract/call.js";
import { specNamed } from "./catalogue.js";
import type { RawCells, Result } from "./contract/cell-value.js";
import { evaluate } from "./evaluate.js";
import type { FunctionSpec } from "./contract/function-spec.js";

/** What the function that says how sure a result is gets of a call; undefined if it needs to know more. */
export function uncertaintyArguments(
  { uncertainty, parameters }: Pick<FunctionSpec, "uncertainty" | "parameters">,
  args: readonly RawCells[],
): readonly RawCells[] | undefined {
  return uncertainty?.from?.map(
    (wanted) => args[parameters.findIndex(({ name }) => name === wanted)] ?? [[undefined]],
  );
}

/**
 * How sure each cell of a result is: expanded uncertainty (k = 2) in the units of the result.
 *
 * @param name without its namespace
 * @param args cells, ranges as rows of cells, or undefined where an argument is left out
 * @returns undefined where no function says so, or where that one needs to know more than the call does
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
