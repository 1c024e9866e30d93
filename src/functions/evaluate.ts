import type { InstrumentSet } from "../instruments/set.js";
import { call } from "./contract/call.js";
import { specNamed } from "./catalogue.js";
import type { Result } from "./contract/cell-value.js";
import { withInstruments } from "./contract/instruments-port.js";

/**
 * The result of a function for these arguments and instruments, outside of any cell.
 *
 * @param name without its namespace
 * @param args cells, ranges as rows of cells, or undefined for an omitted argument
 * @throws RangeError if there is no such function
 */
export function evaluate(name: string, args: readonly unknown[], set: InstrumentSet): Result[][] {
  const spec = specNamed(name);
  const results = withInstruments(set, () => call(spec, args));
  if (results instanceof Promise) throw new Error("The instruments are there, so nothing can be waited for.");
  return results;
}
