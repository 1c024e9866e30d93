/// <reference types="office-js" />
import { follow, type Area } from "../formulas/cells.js";
import type { OwnFunctions } from "../formulas/own-calls.js";
import { singleCall, type ArgumentSource } from "../formulas/single-call.js";
import type { Call, OurFormula } from "../pane/ports.js";
import { cellCount } from "./blocks.js";
import { CellsRead } from "./cells-read.js";
import { locate } from "./locate.js";
import { readNames } from "./workbook-names.js";

/** More cells than any season has; beyond that the call is not read. */
const MOST_CELLS = 200_000;

/** What formulas calculate that are nothing but one call, with the cells that it gets. */
export async function readCalls(
  context: Excel.RequestContext,
  functions: OwnFunctions,
  formulas: readonly OurFormula[],
): Promise<(Call | undefined)[]> {
  const names = await readNames(context);
  const cells = new CellsRead(names);
  const places = new Map(locate(formulas, names).places.map((place) => [place.found, place]));

  const target = (argument: ArgumentSource, found: OurFormula): Area | undefined => {
    const place = places.get(found);
    if (!argument || !("reference" in argument) || !place) return undefined;
    const area = follow(argument.reference, place, names);
    return area && "sheet" in area && cellCount(area) <= MOST_CELLS ? area : undefined;
  };
  const read = formulas.map((found) => {
    const call = singleCall(found.formula, functions);
    const areas = call?.args.map((argument) => target(argument, found));
    const isWhole = call?.args.every((arg, i) => !arg || "value" in arg || areas?.[i] !== undefined);
    if (!call || !areas || !isWhole) return undefined;
    for (const area of areas) if (area) cells.need(area);
    return { call, areas };
  });
  await cells.read(context);

  return read.map((one) => {
    if (!one) return undefined;
    const args = one.call.args.map((argument, i) => {
      const area = one.areas[i];
      if (area) return cells.rows(area);
      return argument && "value" in argument ? [[argument.value]] : undefined;
    });
    return { name: one.call.name, args };
  });
}
