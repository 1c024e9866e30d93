import type { InstrumentSet } from "../instruments/set.js";
import { call } from "./contract/call.js";
import { specNamed } from "./catalogue.js";
import type { Result } from "./contract/cell-value.js";
import { withInstruments } from "./contract/instruments-port.js";

/**
 * What a function would give with these arguments and these instruments, outside of any cell.
 *
 * @param name without its namespace
 * @param args cells, ranges as rows of cells, or undefined where an argument is left out
 * @throws RangeError if there is no such function
 */
export function evaluate(name: string, args: readonly unknown[], set: InstrumentSet): Result[][] {
  const spec = specNamed(name);
  const results = withInstruments(set, () => call(spec, args));
  if (results instanceof Promise) throw new Error("The instruments are there, so nothing can be waited for.");
  return results;
}
