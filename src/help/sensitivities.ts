// Sensitivity of a result to each measurement, found by recalculating with a slightly higher value.
import { gravityOfExtract } from "../core/liquid/gravity.js";
import type { Range } from "../core/refusal.js";
import { evaluate } from "../functions/evaluate.js";
import type { FunctionSpec } from "../functions/contract/function-spec.js";
import { covered } from "./ranges.js";
import { sampleInstruments } from "./sample-book.js";
import type { WorkedExample } from "./worked-example.js";

export interface Sensitivity {
  readonly parameter: string;
  /** Such as "0.001". */
  readonly by: string;
  /** Change of the result. */
  readonly change: number;
}

/** A small step, by unit: an easy misreading. Common practice, no source. For amounts it is a hundredth. */
const smallSteps: Readonly<Record<string, number>> = { SG: 0.001, "°P": 0.1, "°Bx": 0.1, "°C": 1, "%": 1 };

/** For every argument of the worked example that is a number with a range; none if the result is not a number. */
export function sensitivities(
  { name, parameters, topic }: FunctionSpec,
  worked: WorkedExample,
): Sensitivity[] {
  const [row, column] = worked.told;
  const before = worked.results[row]?.[column];
  if (typeof before !== "number" || ofItself(topic)) return [];
  return parameters.flatMap((parameter, i) => {
    const range = covered[name]?.[parameter.name]?.[0];
    const given = worked.args[i]?.[0]?.[0];
    if (!range || typeof given !== "number") return [];
    const { add, by } = step(range, given);
    const args = worked.args.map((each, at) =>
      at === i
        ? each.map((cells) => cells.map((cell) => (typeof cell === "number" ? add(cell) : cell)))
        : each,
    );
    const after = evaluate(name, args, sampleInstruments)[row]?.[column];
    return typeof after === "number" ? [{ parameter: parameter.name, by, change: after - before }] : [];
  });
}

/** A log does not depend on a single reading, and an uncertainty needs no sensitivity. */
const ofItself = (topic: string): boolean => topic === "Fermentation" || topic === "How sure it is";

function step({ unit }: Range, given: number): { add: (value: number) => number; by: string } {
  // An extract written as SG.
  const own = unit === "°P" && given < gravityOfExtract(30) ? "SG" : unit;
  const amount = smallSteps[own];
  if (amount === undefined) return { add: (value) => value * 1.01, by: "1 %" };
  return { add: (value) => value + amount, by: own === "SG" ? String(amount) : `${amount} ${own}` };
}
