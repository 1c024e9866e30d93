// How much a result hangs on each thing that was measured: found by calculating once more with it a little higher.
import { gravityOfExtract } from "../core/liquid/gravity.js";
import type { Range } from "../core/refusal.js";
import { evaluate } from "../functions/evaluate.js";
import type { FunctionSpec } from "../functions/contract/function-spec.js";
import { covered } from "./ranges.js";
import { sampleInstruments } from "./sample-book.js";
import type { WorkedExample } from "./worked-example.js";

export interface Nudge {
  readonly parameter: string;
  /** Such as "0.001". */
  readonly by: string;
  /** What the result is then, less what it was. */
  readonly change: number;
}

/** A little, by unit: what one easily misreads. Common practice, no source. Amounts go by the hundredth. */
const little: Readonly<Record<string, number>> = { SG: 0.001, "°P": 0.1, "°Bx": 0.1, "°C": 1, "%": 1 };

/** Whatever the worked example has as a number and has a range; none where the result is none. */
export function nudges({ name, parameters, topic }: FunctionSpec, worked: WorkedExample): Nudge[] {
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

/** A log is not off by a reading, and how sure a number is already says it. */
const ofItself = (topic: string): boolean => topic === "Fermentation" || topic === "How sure it is";

function step({ unit }: Range, given: number): { add: (value: number) => number; by: string } {
  // An extract that is written as SG.
  const own = unit === "°P" && given < gravityOfExtract(30) ? "SG" : unit;
  const amount = little[own];
  if (amount === undefined) return { add: (value) => value * 1.01, by: "1 %" };
  return { add: (value) => value + amount, by: own === "SG" ? String(amount) : `${amount} ${own}` };
}
