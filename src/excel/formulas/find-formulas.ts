/// <reference types="office-js" />
import { cellAddress } from "../../cells/a1.js";
import type { SheetPlace } from "../../cells/place.js";
import type { SheetArea } from "../../cells/area.js";
import { typedFormula } from "../../formulas/formula-text.js";
import { distinctNames, nameInCell, namedInstruments } from "../../formulas/named-instruments.js";
import { parseFormula, type OwnFunctions } from "../../formulas/own-calls.js";
import type { OurFormula, Work } from "../../pane/ports/formulas-port.js";
import { blocks, cellCount, type Block } from "../cells/blocks.js";
import { CellBatch } from "../cells/cell-batch.js";
import { knowsSpills, readSpills, spilled } from "../cells/spills.js";
import { readNames, type WorkbookNames } from "../cells/workbook-names.js";

interface Found extends SheetPlace {
  readonly formula: string;
  readonly value: unknown;
}

/** Finds all formulas that call our functions, including on hidden sheets. */
export async function findFormulas(
  context: Excel.RequestContext,
  functions: OwnFunctions,
  { onProgress, signal }: Work,
): Promise<OurFormula[]> {
  const names = await readNames(context);
  const areas = names.sheets.flatMap(({ used }) => used ?? []);
  const total = areas.reduce((sum, area) => sum + cellCount(area), 0);
  const found: Found[] = [];
  let done = 0;
  onProgress(done, total);
  for (const area of areas)
    for await (const block of blocks(context, area, properties(), signal)) {
      const here = formulasIn(area.sheet, block, functions);
      const copies = await spilled(context, block, repeated(here));
      found.push(...here.filter((cell) => !copies.has(cell)));
      done += block.range.formulas.length * (area.right - area.left + 1);
      onProgress(done, total);
    }
  return named(context, found, functions, names, signal);
}

const properties = (): string => (knowsSpills() ? "formulas,values,hasSpill" : "formulas,values");

function formulasIn(sheet: string, { range, top, left }: Block, functions: OwnFunctions): Found[] {
  const formulas: unknown[][] = range.formulas;
  const values: unknown[][] = range.values;
  return formulas.flatMap((row, r) =>
    row.flatMap((formula, c): Found[] =>
      typeof formula === "string" &&
      formula.startsWith("=") &&
      parseFormula(formula, functions).calls.length > 0
        ? [{ sheet, row: top + r, column: left + c, formula, value: values[r]?.[c] }]
        : [],
    ),
  );
}

/** Cells with the same formula as the one above or to the left, and those whose neighbours were not read with them. */
function repeated(cells: readonly Found[]): Found[] {
  const key = (row: number, column: number): string => `${row},${column}`;
  const at = new Map(cells.map((cell) => [key(cell.row, cell.column), cell.formula]));
  const first = cells[0]?.row;
  return cells.filter(
    ({ row, column, formula }) =>
      row === first || at.get(key(row - 1, column)) === formula || at.get(key(row, column - 1)) === formula,
  );
}

async function named(
  context: Excel.RequestContext,
  found: readonly Found[],
  functions: OwnFunctions,
  names: WorkbookNames,
  signal: AbortSignal,
): Promise<OurFormula[]> {
  const cells = new CellBatch(names);
  const known = await readSpills(context, names, found);
  const sources = found.map((cell) => {
    const source = namedInstruments(cell.formula, cell, known, functions);
    for (const area of source.areas) cells.need(area);
    return { cell, ...source };
  });
  await cells.read(context, signal);

  const alike = new Map<string, readonly string[]>();
  const namesIn = (area: SheetArea): readonly string[] => {
    const key = JSON.stringify(area);
    const names = alike.get(key) ?? distinctNames([...cells.cells(area)].flatMap(nameIn));
    alike.set(key, names);
    return names;
  };
  return sources.map(({ cell, areas, written, defined, any }) => ({
    sheet: cell.sheet,
    address: cellAddress(cell.row, cell.column),
    formula: typedFormula(cell.formula, functions),
    value: cell.value,
    instruments: distinctNames([...written, ...defined, ...areas.flatMap(namesIn)]),
    anyInstrument: any,
  }));
}

const nameIn = ({ value, isError }: { value: unknown; isError: boolean }): string[] =>
  isError ? [] : nameInCell(value);
