/// <reference types="office-js" />
import type { SheetPlace } from "../../cells/place.js";
import { resolveReference, type Names } from "../../formulas/references.js";
import type { OwnFunctions } from "../../formulas/own-calls.js";
import { foundCalls, onlyCall, type ArgumentSource } from "../../formulas/single-call.js";
import type { RawCells } from "../../functions/contract/cell-value.js";
import type { Call, OurFormula } from "../../pane/ports/formulas-port.js";
import type { InnerCall } from "../../pane/ports/selection-port.js";
import { cellCount } from "../cells/blocks.js";
import { CellBatch } from "../cells/cell-batch.js";
import { locate } from "../cells/locate.js";
import { readSpills } from "../cells/spills.js";
import { readNames, type WorkbookNames } from "../cells/workbook-names.js";

/** More cells than any season has; a call with more is not read. */
const MOST_CELLS = 200_000;

/** Gives an argument's cells once they have been read; undefined if the argument is omitted. */
type Later = () => RawCells | undefined;

/**
 * Requests the cells of an argument.
 *
 * @returns undefined if it refers to no cells, or to too many
 */
function ask(source: ArgumentSource, at: SheetPlace, names: Names, cells: CellBatch): Later | undefined {
  if (!source) return () => undefined;
  if ("value" in source) return () => [[source.value]];
  const area = resolveReference(source.reference, at, names);
  if (!area || !("sheet" in area) || cellCount(area) > MOST_CELLS) return undefined;
  cells.need(area);
  return () => cells.rows(area);
}

/** All arguments, or undefined if one is missing. */
const allOf = <T>(args: readonly (T | undefined)[]): readonly T[] | undefined =>
  args.every((argument) => argument !== undefined) ? args : undefined;

/** Calls of formulas that consist of a single call, with the cells passed to it. */
export async function readCalls(
  context: Excel.RequestContext,
  functions: OwnFunctions,
  formulas: readonly OurFormula[],
): Promise<(Call | undefined)[]> {
  const all = await readNames(context);
  const located = locate(formulas, all).places.map((place) => ({ ...place, formula: place.found.formula }));
  const names = await readSpills(context, all, located);
  const cells = new CellBatch(names);
  const places = new Map(located.map((place) => [place.found, place]));
  const asked = formulas.map((found) => {
    const call = onlyCall(found.formula, functions);
    const place = places.get(found);
    const args = call && place && allOf(call.args.map((source) => ask(source, place, names, cells)));
    return args && { name: call.name, isWhole: call.isWhole, args };
  });
  await cells.read(context);
  return asked.map((call) => call && { ...call, args: call.args.map((later) => later()) });
}

/** All calls of our functions in one formula, with the cells passed to them. */
export async function readInnerCalls(
  context: Excel.RequestContext,
  functions: OwnFunctions,
  all: WorkbookNames,
  formula: string,
  at: SheetPlace,
): Promise<InnerCall[]> {
  const names = await readSpills(context, all, [{ ...at, formula }]);
  const cells = new CellBatch(names);
  const asked = foundCalls(formula, functions).map(({ args, ...call }) => ({
    ...call,
    args: args && allOf(args.map((source) => innerOr(source, (cell) => ask(cell, at, names, cells)))),
  }));
  await cells.read(context);
  return asked.map((call) => ({
    ...call,
    args: call.args?.map((argument) => (typeof argument === "function" ? argument() : argument)),
  }));
}

function innerOr<T>(
  source: ArgumentSource | { readonly call: number },
  otherwise: (source: ArgumentSource) => T,
): T | { readonly call: number } {
  return source && "call" in source ? source : otherwise(source);
}
