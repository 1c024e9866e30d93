import { specNamed } from "../../functions/catalogue.js";
import { evaluate } from "../../functions/evaluate.js";
import type { InstrumentSet } from "../../instruments/set.js";
import { chebyshevNodes, type Interval } from "../fit/interval.js";
import type { InputCondition, Expression } from "../fit/expression.js";
import type { Results } from "../fit/smooth-fit.js";

/**
 * What an empty cell means for an input: the result is "" if it is empty or 0; if it is empty, with no answer at 0; if
 * it is empty, with 0 a value like any other; no answer; or the argument counts as omitted, for which there is a branch
 * of its own.
 */
export type WhenEmpty = "blank-or-0" | "blank" | "blank-not-0" | "refused" | "left-out";

/** An input of a live formula: a cell, or a list of cells. */
export interface Input {
  /** The function's parameter. */
  readonly parameter: string;
  readonly whenEmpty: WhenEmpty;
  /** Interval in which it is measured, in the units of the cell. */
  readonly interval: Interval;
  readonly isList?: boolean;
  /** Another input; unless that has a value, a 0 in this one is an empty cell. */
  readonly zeroBeside?: string;
}

/** A formula for part of the inputs. */
export interface Branch {
  /** Missing for the last one, which covers the rest. */
  readonly when?: InputCondition;
  readonly conditions: readonly InputCondition[];
  readonly result: Expression;
}

/** A cell function as ordinary formulas, with the other arguments folded in as constants. */
export interface LiveFunction {
  readonly inputs: readonly Input[];
  readonly branches: readonly Branch[];
  /** Largest error allowed, and its unit. */
  readonly tolerance: number;
  readonly unit: string;
  /** The tolerance is a share of the result. */
  readonly relative?: boolean;
}

/** A call of a cell function: the constants, and which parameters are inputs. */
export interface FoldedCall {
  readonly name: string;
  readonly parameters: readonly string[];
  /** Texts and numbers by parameter. */
  readonly constants: Readonly<Record<string, string | number | undefined>>;
  /** Parameters that are inputs, in order. */
  readonly inputs: readonly string[];
  /** Parameters in cells that do not affect the result. */
  readonly ignored?: readonly string[];
  readonly instruments: InstrumentSet;
}

/** The cell function itself, as a function of its inputs. Each point has a number for each input. */
export function resultsOf(call: FoldedCall): Results {
  return (places) => {
    const columns = call.parameters.map((parameter) => {
      const i = call.inputs.indexOf(parameter);
      return i < 0 ? call.constants[parameter] : places.map((place) => [place[i]]);
    });
    const rows = specNamed(call.name).lists
      ? places.map((place) => {
          const args = call.parameters.map((parameter) => {
            const i = call.inputs.indexOf(parameter);
            return i < 0 ? call.constants[parameter] : place[i];
          });
          return evaluate(call.name, args, call.instruments)[0];
        })
      : evaluate(call.name, columns, call.instruments);
    return places.map((_, i) => {
      const value = rows[i]?.[0];
      return typeof value === "number" ? value : undefined;
    });
  };
}

const GRID = { 1: 400, 2: 41, 3: 13, 4: 7 } as Readonly<Record<number, number>>;
/** Lists are evaluated line by line, and made of pieces that were measured on their own. */
const LIST_GRID = { 2: 15, 4: 5 } as Readonly<Record<number, number>>;

/** Comparison of a live function with the cell function. */
export interface Measured {
  /** Largest difference where both answer, in the result's unit or relative to it. */
  readonly worst: number;
  /** Number of points at which both answered, only the cell function, only the live one. */
  readonly both: number;
  /** The values of each input at those points, in the units of the cell. */
  readonly ranges: readonly Interval[];
  readonly onlyOurs: number;
  readonly onlyLive: number;
}

/** Compares on a dense grid, with the present function and instrument. */
export function measure(call: FoldedCall, live: LiveFunction): Measured {
  const grids = live.inputs.some(({ isList }) => isList) ? LIST_GRID : GRID;
  const count = grids[live.inputs.length] ?? 5;
  const places = live.inputs.reduce<number[][]>(
    (all, { interval }) => {
      const nodes = [interval.min, ...chebyshevNodes(interval, count - 2), interval.max];
      return all.flatMap((place) => nodes.map((node) => [...place, node]));
    },
    [[]],
  );
  const ours = resultsOf({ ...call, inputs: live.inputs.map(({ parameter }) => parameter) })(places);
  const ranges = live.inputs.map(() => ({ min: Infinity, max: -Infinity }));
  let [worst, both, onlyOurs, onlyLive] = [0, 0, 0, 0];
  for (const [i, place] of places.entries()) {
    const mine = ours[i];
    const theirs = answerOf(live, place);
    if (mine === undefined) onlyLive += theirs === undefined ? 0 : 1;
    else if (theirs === undefined) onlyOurs++;
    else {
      both++;
      for (const [j, range] of ranges.entries()) {
        range.min = Math.min(range.min, place[j] ?? NaN);
        range.max = Math.max(range.max, place[j] ?? NaN);
      }
      worst = Math.max(worst, Math.abs(theirs - mine) / (live.relative ? Math.abs(mine) || 1 : 1));
    }
  }
  return { worst, both, ranges, onlyOurs, onlyLive };
}

/** Whether a 0 in the cell gives no answer. */
export const refusesZero = ({ whenEmpty }: Input): boolean =>
  whenEmpty === "blank" || whenEmpty === "refused";

/** Result of the live formula at a point; undefined for #N/A. */
function answerOf({ branches, inputs }: LiveFunction, place: readonly number[]): number | undefined {
  if (inputs.some((each, i) => refusesZero(each) && place[i] === 0)) return undefined;
  const branch = branches.find(({ when }) => when?.holds(place) ?? true);
  return branch?.conditions.every((condition) => condition.holds(place))
    ? branch.result.at(place)
    : undefined;
}
