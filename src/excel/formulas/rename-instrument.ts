/// <reference types="office-js" />
import { formulaLimit } from "../../cells/limits.js";
import type { SheetArea } from "../../cells/area.js";
import type { SheetPlace } from "../../cells/place.js";
import { namedInstruments } from "../../formulas/named-instruments.js";
import type { OwnFunctions } from "../../formulas/own-calls.js";
import { renamedFormula } from "../../formulas/rename.js";
import { nameKey } from "../../instruments/name.js";
import type { OurFormula, Report, Work } from "../../pane/ports/formulas-port.js";
import { CellBatch, type ReadCell } from "../cells/cell-batch.js";
import { locate } from "../cells/locate.js";
import { failed, type Failed } from "../cells/reach.js";
import { readSpills, spilled } from "../cells/spills.js";
import { readNames } from "../cells/workbook-names.js";
import { writeCells, type CellWrite } from "../cells/write-cells.js";

/** Replaces the name of an instrument in formulas, and in the cells from which they take it. */
export async function renameInWorkbook(
  context: Excel.RequestContext,
  functions: OwnFunctions,
  formulas: readonly OurFormula[],
  [from, to]: readonly [from: string, to: string],
  { onProgress, signal }: Work,
): Promise<Report> {
  const names = await readNames(context);
  const { places, failures } = locate(formulas, names);
  const own = new CellBatch(names);
  for (const { row, column, sheet } of places)
    own.need({ sheet, top: row, left: column, bottom: row, right: column });
  await own.read(context, signal);

  const writes: CellWrite[] = [];
  const taken = new CellBatch(names);
  const areas = new Map<string, SheetArea>();
  const formulasNow = places.map((place) => ({ ...place, formula: String(own.cell(place).formula) }));
  const spilling = await readSpills(context, names, formulasNow);
  for (const place of formulasNow) {
    const { formula } = place;
    const source = namedInstruments(formula, place, spilling, functions);
    for (const area of source.areas) areas.set(JSON.stringify(area), area);
    if (source.any) failures.push(failed(place, worksOut(from)));
    if (source.defined.some((text) => nameKey(text) === nameKey(from)))
      failures.push(failed(place, inDefinedName(from)));
    const renamed = renamedFormula(formula, from, to, functions);
    if (renamed.length > formulaLimit) failures.push(failed(place, tooLong));
    else if (renamed !== formula) writes.push({ ...place, formula: renamed });
  }

  for (const area of areas.values()) taken.need(area);
  await taken.read(context, signal);
  const cells = cellsNaming(from, taken, [...areas.values()]);
  const results = await spilled(context, undefined, cells);
  for (const cell of cells) {
    const why = results.has(cell) ? worksOut(from) : obstacle(cell, from);
    if (why === undefined) writes.push({ sheet: cell.sheet, row: cell.row, column: cell.column, text: to });
    else failures.push(failed(cell, why));
  }

  onProgress(0, writes.length);
  const unwritten = await writeCells(context, names, writes, signal, (done) => {
    onProgress(done, writes.length);
  });
  return { done: writes.length - unwritten.length, failed: withoutDoubles([...failures, ...unwritten]) };
}

const worksOut = (from: string): string =>
  `A formula works out which instrument this is. If it can be "${from}", change the formula by hand.`;
const inDefinedName = (from: string): string =>
  `It takes "${from}" from a defined name that holds it as a text. Change that in Excel's Name Manager.`;
const tooLong = `With the new name the formula would have more than ${formulaLimit} characters.`;

/** Each cell once, even if several formulas take the name from it. */
function cellsNaming(from: string, read: CellBatch, areas: readonly SheetArea[]): (SheetPlace & ReadCell)[] {
  const key = nameKey(from);
  const found = new Map<string, SheetPlace & ReadCell>();
  for (const area of areas)
    for (const cell of read.cells(area))
      if (!cell.isError && nameKey(String(cell.value)) === key)
        found.set(JSON.stringify([cell.sheet, cell.row, cell.column]), cell);
  return [...found.values()];
}

function obstacle({ formula, value }: ReadCell, from: string): string | undefined {
  if (typeof formula === "string" && formula.startsWith("=") && formula !== value) return worksOut(from);
  return typeof value === "string" ? undefined : `The cell holds ${String(value)}, which is no text.`;
}

function withoutDoubles(failures: readonly Failed[]): Failed[] {
  return [...new Map(failures.map((failure) => [JSON.stringify(failure), failure])).values()];
}
