import { columnLetters } from "../cells/a1.js";
import { ownFunctions } from "../formulas/own-calls.js";
import { resolveReference } from "../formulas/references.js";
import { singleCall, type ArgumentSource } from "../formulas/single-call.js";
import { matrix } from "../functions/contract/call.js";
import { catalogue } from "../functions/catalogue.js";
import type { RawCells, Result } from "../functions/contract/cell-value.js";
import { evaluate } from "../functions/evaluate.js";
import { explain } from "../functions/explain.js";
import { NAMESPACE, type FunctionSpec } from "../functions/contract/function-spec.js";
import type { Step } from "../core/steps.js";
import { shownCell } from "./outcome.js";
import { sampleCells, sampleInstruments, type SampleCells } from "./sample-book.js";

export const functions = ownFunctions(NAMESPACE, catalogue);

/** An example, worked out by the calculation itself. */
export interface WorkedExample {
  /** Without "=". */
  readonly formula: string;
  readonly says: string;
  /** The cells that it refers to, if any. */
  readonly cells: SampleCells | undefined;
  readonly sources: readonly ArgumentSource[];
  /** Arguments of the function, in the order of its parameters. */
  readonly args: readonly RawCells[];
  /** All cells of the result. */
  readonly results: readonly (readonly Result[])[];
  /** How the cell at `told` of the result was calculated. */
  readonly steps: readonly Step[];
  readonly warnings: readonly string[];
  readonly told: readonly [row: number, column: number];
  readonly plusMinus: Result | undefined;
}

/** If there are several columns, the one whose steps are most informative. */
const TOLD: Readonly<Partial<Record<string, readonly [number, number]>>> = { SEASON: [0, 2] };

/** The first examples, which are not informative, are skipped. */
const FROM: Readonly<Partial<Record<string, number>>> = { "FERMENT.RATE": 1 }; // at its end, nothing is lost any more

/**
 * The first example that is a single call of the function, worked out with the cells and instruments of the invented
 * brewery.
 *
 * @throws if no example can be worked out, or the result is only an error
 */
export function workedExample({ name, examples, parameters }: FunctionSpec): WorkedExample {
  const cells = sampleCells[name];
  for (const { formula, says } of examples.slice(FROM[name] ?? 0)) {
    const call = singleCall(`=${formula}`, functions);
    if (call?.name !== name) continue;
    const args = parameters.map((_, i) => argument(call.args[i], cells));
    const results = evaluate(name, args, sampleInstruments);
    const told = TOLD[name] ?? [0, 0];
    const { steps, warnings, uncertainty } = explain(name, args, ...told, sampleInstruments);
    if (results.flat().some((each) => each instanceof Error))
      throw new Error(
        `The example ${formula} comes to ${results
          .flat()
          .map((each) => shownCell(each))
          .join(" ")}.`,
      );
    return {
      formula,
      says,
      cells,
      sources: call.args,
      args,
      results,
      steps,
      warnings,
      told,
      plusMinus: uncertainty?.plusMinus,
    };
  }
  throw new Error(`${name} has no example that can be worked out.`);
}

/** Value of an argument, whether a literal or in a cell. */
export function argument(source: ArgumentSource, cells: SampleCells | undefined): RawCells {
  if (!source || "value" in source) return matrix(source?.value);
  const at = { sheet: "S", row: 0, column: 0 };
  const none = (): undefined => undefined;
  const found = resolveReference(source.reference, at, {
    sheet: none,
    defined: none,
    table: none,
    tableAt: none,
    spilledFrom: none,
  });
  if (!cells || !found || "text" in found) throw new Error(`There are no cells for ${source.reference}.`);
  const { top, bottom, left, right } = found;
  return Array.from({ length: bottom - top + 1 }, (_, r) =>
    Array.from({ length: right - left + 1 }, (_, c) => valueAt(cells, top + r, left + c)),
  );
}

/** A cell of the sample; rows and columns count from 0. */
function valueAt(
  { row, columns }: SampleCells,
  atRow: number,
  atColumn: number,
): number | string | undefined {
  const index = atRow + 1 - row;
  return index < 0 ? undefined : columns[columnLetters(atColumn)]?.[1 + index];
}
