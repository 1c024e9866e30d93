import type { InstrumentSet } from "../instruments/set.js";
import type {
  CellFunctions,
  CellResult,
  Course,
  Explanation,
  InnerCall,
  Rows,
  SelectedFormula,
} from "./ports.js";

/** What there is to say of one call in the selected cell's formula. */
export interface ExplainedCall {
  readonly name: string;
  /** Undefined where its arguments cannot be told from outside. */
  readonly explanation: Explanation | undefined;
  /** The fermentation log that it looks at. */
  readonly course: Course | undefined;
  /** It gives more cells than the one that is explained, and something in the formula makes one of them. */
  readonly cells: number;
}

/** How the calls in a formula come to what the selected cell shows, the outermost first. */
export function explainedCalls(
  { calls, row, column }: SelectedFormula,
  functions: CellFunctions,
  set: InstrumentSet,
): ExplainedCall[] {
  const argumentsOf = resolver(calls, functions, set);
  return calls
    .map((call, i): ExplainedCall => {
      const args = argumentsOf(i);
      if (!args) return { name: call.name, explanation: undefined, course: undefined, cells: 1 };
      const results = functions.evaluate(call.name, args, set);
      const count = results.length * (results[0]?.length ?? 0);
      const isSpread = call.isWhole || row < results.length;
      const [r, c] = isSpread ? [row, column] : [0, 0];
      return {
        name: call.name,
        explanation: functions.explain(call.name, args, r, c, set),
        course: functions.course(call.name, args),
        cells: call.isWhole || row > 0 || column > 0 ? 1 : count,
      };
    })
    .reverse();
}

type Args = readonly (Rows | undefined)[];

/** Arguments of calls by their place, with the results of the calls inside them. */
function resolver(
  calls: readonly InnerCall[],
  functions: CellFunctions,
  set: InstrumentSet,
): (i: number) => Args | undefined {
  const known = new Map<number, Args | undefined>();
  const argumentsOf = (i: number): Args | undefined => {
    if (!known.has(i)) known.set(i, resolved(calls[i]));
    return known.get(i);
  };
  const resolved = (call: InnerCall | undefined): Args | undefined => {
    const args: (Rows | undefined)[] = [];
    for (const argument of call?.args ?? []) {
      if (!argument || !("call" in argument)) {
        args.push(argument);
        continue;
      }
      const name = calls[argument.call]?.name;
      const inner = argumentsOf(argument.call);
      if (name === undefined || !inner) return undefined;
      args.push(functions.evaluate(name, inner, set).map((line) => line.map(asCell)));
    }
    return call?.args && args;
  };
  return argumentsOf;
}

/** A result as a cell hands it on. */
const asCell = (result: CellResult): unknown => (typeof result === "object" ? { code: result.code } : result);
