import type { Listener, Step } from "../core/steps.js";
import type { InstrumentSet } from "../instruments/set.js";
import { at, shapeOf } from "./contract/broadcast.js";
import { matrix } from "./contract/call.js";
import { specNamed } from "./catalogue.js";
import { cellContent, CellError, type Result } from "./contract/cell-value.js";
import { inCell } from "./contract/define.js";
import type { FunctionSpec } from "./contract/function-spec.js";
import { withInstruments } from "./contract/instruments-port.js";
import { partFor, type PartOfResult } from "./one-cell.js";
import { uncertaintyArguments } from "./uncertainty.js";
import { inCells, unknownFailure, warningSentence } from "./contract/messages.js";

/** How one cell was calculated. */
export interface Explanation {
  /** The arguments at that place by name; only those that are not empty. */
  readonly given: readonly { readonly name: string; readonly value: number | string | boolean }[];
  /** In order of calculation; none if the function reports no steps. The last is the result. */
  readonly steps: readonly Step[];
  /** Warnings, as sentences. */
  readonly warnings: readonly string[];
  readonly result: Result;
  /** Uncertainty of the result, if there is a function for it. */
  readonly uncertainty:
    | {
        /** Name of that function. */
        readonly by: string;
        /**
         * Expanded uncertainty (k = 2) in the units of the result, or why there is none; undefined if it needs more
         * arguments.
         */
        readonly plusMinus: Result | undefined;
      }
    | undefined;
}

/**
 * How one cell of a result was calculated, reported by the calculation itself.
 *
 * @param name without its namespace
 * @param args cells, ranges as rows of cells, or undefined for an omitted argument
 * @param row @param column of the result, from 0
 * @throws RangeError if there is no such function
 */
export function explain(
  name: string,
  args: readonly unknown[],
  row: number,
  column: number,
  set: InstrumentSet,
): Explanation {
  const spec = specNamed(name);
  const all = spec.parameters.map((_, i) => matrix(args[i]));
  const part = partFor(spec, all, row, column);
  const steps: Step[] = [];
  const warnings: string[] = [];
  const to: Listener = {
    step: (step) => {
      steps.push(step);
    },
    warn: (warning) => {
      warnings.push(warningSentence(warning));
    },
  };
  return withInstruments(set, () => {
    const result = resultOf(spec, part, to);
    const uncertainty = typeof result === "number" ? uncertaintyOf(spec, part) : undefined;
    return { given: given(spec, part), steps, warnings, result, uncertainty };
  });
}

function resultOf(spec: FunctionSpec, { args: matrices, row, column }: PartOfResult, to: Listener): Result {
  try {
    // Only the whole calculation can tell whether the arguments fit together.
    const all = inCell(() => spec.calculate(matrices));
    if (all instanceof CellError) return all;
    return spec.tell
      ? inCell(() => spec.tell?.(matrices, row, column, to) ?? "")
      : (all[row]?.[column] ?? "");
  } catch {
    return new CellError("#VALUE!", unknownFailure);
  }
}

function uncertaintyOf(
  { uncertainty, parameters }: FunctionSpec,
  { args: matrices, row, column }: PartOfResult,
): Explanation["uncertainty"] {
  if (!uncertainty) return undefined;
  const { by } = uncertainty;
  const args = uncertaintyArguments({ uncertainty, parameters }, matrices);
  const silent: Listener = { step: () => undefined, warn: () => undefined };
  return { by, plusMinus: args && resultOf(specNamed(by), { args, row, column }, silent) };
}

function given(
  { parameters, lists = [] }: FunctionSpec,
  { args: matrices, row, column }: PartOfResult,
): Explanation["given"] {
  return parameters.flatMap(({ name }, i) => {
    const cells = matrices[i] ?? [];
    const { rows, columns } = shapeOf(cells);
    if (lists.includes(name) && rows * columns > 1) return [{ name, value: inCells(rows * columns) }];
    const content = cellContent(at(cells, row, column));
    if (content === undefined) return [];
    return [{ name, value: content instanceof CellError ? content.code : content }];
  });
}
