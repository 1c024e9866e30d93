/// <reference types="office-js" />
import type { SheetPlace } from "../../cells/place.js";
import type { SheetArea } from "../../cells/area.js";
import { areaReference } from "../../formulas/references.js";
import { typedFormula } from "../../formulas/formula-text.js";
import type { OwnFunctions } from "../../formulas/own-calls.js";
import type { OurFormula, Report, Work } from "../../pane/ports/formulas-port.js";
import { CellBatch } from "../cells/cell-batch.js";
import { locate } from "../cells/locate.js";
import { failed, reachAll, type Failed } from "../cells/reach.js";
import { readNames, type WorkbookNames } from "../cells/workbook-names.js";
import { writeCells } from "../cells/write-cells.js";

type Located = SheetPlace & { readonly found: OurFormula };

/** Runs of cells marked per batch. */
const RUNS_PER_BATCH = 1000;
/** The longest address that every Excel API for multiple areas accepts. */
const LONGEST_ADDRESS = 255;
/** Results arrive in groups, half a second apart. */
const RESULTS_MS = 1500;
/** Errors that our functions return; some builds do not call a function again while its cell shows one of them. */
const ownErrors = new Set<unknown>(["#VALUE!", "#N/A", "#DIV/0!", "#NUM!", "#NULL!"]);

/** Recalculates formulas, and no others except their dependents. */
export async function recalculateFormulas(
  context: Excel.RequestContext,
  functions: OwnFunctions,
  formulas: readonly OurFormula[],
  { onProgress, signal }: Work,
): Promise<Report> {
  const names = await readNames(context);
  const { places, failures } = locate(formulas, names);
  onProgress(0, formulas.length);
  const all = runs(places);
  let done = 0;
  for (let i = 0; i < all.length; i += RUNS_PER_BATCH) {
    signal.throwIfAborted();
    const some = all.slice(i, i + RUNS_PER_BATCH);
    await reachAll(
      context,
      some,
      (runs) => {
        markDirty(context, runs);
      },
      ({ cells }, why) => failures.push(...cells.map((cell) => failed(cell, why))),
    );
    done += some.reduce((sum, { cells }) => sum + cells.length, 0);
    onProgress(done, formulas.length);
  }
  signal.throwIfAborted();
  context.application.calculate("Recalculate");
  await context.sync();

  const inError = places.filter(({ found }) => ownErrors.has(found.value));
  if (inError.length > 0) failures.push(...(await reenter(context, functions, names, inError, signal)));
  const unreached = new Set(failures.map(({ sheet, address }) => `${sheet}!${address}`));
  return { done: formulas.length - unreached.size, failed: failures };
}

interface Run extends SheetArea {
  readonly cells: readonly SheetPlace[];
}

/** Groups adjacent cells of a column. */
function runs(places: readonly SheetPlace[]): Run[] {
  const sorted = [...places].sort(
    (a, b) => a.sheet.localeCompare(b.sheet) || a.column - b.column || a.row - b.row,
  );
  const found: (SheetArea & { cells: SheetPlace[] })[] = [];
  for (const place of sorted) {
    const { sheet, row, column } = place;
    const last = found.at(-1);
    if (last?.sheet === sheet && last.left === column && last.bottom === row - 1) {
      found[found.length - 1] = { ...last, bottom: row, cells: last.cells };
      last.cells.push(place);
    } else found.push({ sheet, top: row, left: column, bottom: row, right: column, cells: [place] });
  }
  return found;
}

function markDirty(context: Excel.RequestContext, some: readonly Run[]): void {
  const addresses = new Map<string, string[]>();
  for (const run of some) {
    const lines = addresses.get(run.sheet) ?? [];
    addresses.set(run.sheet, lines);
    const address = areaReference(run, run.sheet);
    const line = lines.at(-1);
    if (line !== undefined && line.length + 1 + address.length <= LONGEST_ADDRESS)
      lines[lines.length - 1] = `${line},${address}`;
    else lines.push(address);
  }
  for (const [sheet, lines] of addresses)
    for (const line of lines) context.workbook.worksheets.getItem(sheet).getRanges(line).setDirty();
}

/**
 * Re-enters formulas whose cells still show the same error as before (office-js issue 4502). A formula that someone has
 * changed meanwhile is left alone.
 */
async function reenter(
  context: Excel.RequestContext,
  functions: OwnFunctions,
  names: WorkbookNames,
  places: readonly Located[],
  signal: AbortSignal,
): Promise<Failed[]> {
  await new Promise((resolve) => {
    setTimeout(resolve, RESULTS_MS);
  });
  const cells = new CellBatch(names);
  for (const { sheet, row, column } of places)
    cells.need({ sheet, top: row, left: column, bottom: row, right: column });
  await cells.read(context, signal);
  const stuck = places.flatMap(({ found, sheet, row, column }) => {
    const { formula, value, isError } = cells.cell({ sheet, row, column });
    const isSame =
      isError && value === found.value && typedFormula(String(formula), functions) === found.formula;
    return isSame ? [{ sheet, row, column, formula: String(formula) }] : [];
  });
  const unwritten = await writeCells(context, names, stuck, signal);
  return unwritten.map((failure) => ({ ...failure, why: `It still shows an error. ${failure.why}` }));
}
