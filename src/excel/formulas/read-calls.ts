import type { SheetPlace } from "../../cells/place.js";
/// <reference types="office-js" />
import { follow, type Names } from "../../formulas/cells.js";
import type { OwnFunctions } from "../../formulas/own-calls.js";
import { foundCalls, onlyCall, type ArgumentSource } from "../../formulas/single-call.js";
import type { RawCells } from "../../functions/contract/cell-value.js";
import type { Call, OurFormula } from "../../pane/ports/formulas-port.js";
import type { InnerCall } from "../../pane/ports/selection-port.js";
import { cellCount } from "../cells/blocks.js";
import { CellsRead } from "../cells/cells-read.js";
import { locate } from "../cells/locate.js";
import { readSpills } from "../cells/spills.js";
import { readNames, type WorkbookNames } from "../cells/workbook-names.js";

/** More cells than any season has; beyond that the call is not read. */
const MOST_CELLS = 200_000;

/** An argument's cells, once they have been read; undefined where it is left out. */
type Later = () => RawCells | undefined;

/**
 * Asks for the cells of an argument.
 *
 * @returns undefined if it leads to none, or to too many
 */
function ask(source: ArgumentSource, at: SheetPlace, names: Names, cells: CellsRead): Later | undefined {
  if (!source) return () => undefined;
  if ("value" in source) return () => [[source.value]];
  const area = follow(source.reference, at, names);
  if (!area || !("sheet" in area) || cellCount(area) > MOST_CELLS) return undefined;
  cells.need(area);
  return () => cells.rows(area);
}

/** All arguments or none. */
const allOf = <T>(args: readonly (T | undefined)[]): readonly T[] | undefined =>
  args.every((argument) => argument !== undefined) ? args : undefined;

/** What formulas calculate that are nothing but one call, with the cells that it gets. */
export async function readCalls(
  context: Excel.RequestContext,
  functions: OwnFunctions,
  formulas: readonly OurFormula[],
): Promise<(Call | undefined)[]> {
  const all = await readNames(context);
  const located = locate(formulas, all).places.map((place) => ({ ...place, formula: place.found.formula }));
  const names = await readSpills(context, all, located);
  const cells = new CellsRead(names);
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

/** All calls of our functions in one formula, with the cells that they get. */
export async function readInnerCalls(
  context: Excel.RequestContext,
  functions: OwnFunctions,
  all: WorkbookNames,
  formula: string,
  at: SheetPlace,
): Promise<InnerCall[]> {
  const names = await readSpills(context, all, [{ ...at, formula }]);
  const cells = new CellsRead(names);
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
