// What holds for a workbook that recalc has written.
import { callsOurs } from "../../src/formulas/formula-text.js";
import type { CellFunctions } from "../../src/engine/ours/cell-functions.js";
import type { Settings } from "../../src/recalc/arguments.js";
import type { FileOutcome } from "../../src/recalc/recalculate-file.js";
import type { CellChange, CellValue, SheetModel, WorkbookModel } from "../../src/workbook/model.js";
import { unzip, type ZipPart } from "../../src/workbook/package/unzip.js";
import { openWorkbook } from "../../src/workbook/workbook.js";

export const same = (a: Uint8Array, b: Uint8Array): boolean => Buffer.compare(a, b) === 0;

/** Parts that a recalculation may change: sheets, and what says which of their formulas spill. */
const ofCells =
  /sheet[^/]*\.xml$|metadata\.xml$|calcChain\.xml$|^\[Content_Types\]\.xml$|workbook\.xml\.rels$/i;

/** Parts that a copy may change besides: the list of sheets, and the notes. */
const ofCopies = /workbook\.xml$|sheet[^/]*\.xml\.rels$|comments[^/]*\.xml$|\.vml$/i;

/** @returns what is wrong with a workbook that was written, if anything */
export async function wrongInOutput(
  before: Uint8Array,
  after: Uint8Array,
  outcome: FileOutcome,
  { handOver }: Pick<Settings, "handOver">,
  functions: CellFunctions,
): Promise<string | undefined> {
  const mayChange = (name: string): boolean => ofCells.test(name) || (!!handOver && ofCopies.test(name));
  const [old, written] = [partsByName(await unzip(before)), partsByName(await unzip(after))];
  for (const [name, bytes] of old) {
    const now = written.get(name);
    if (!mayChange(name) && (!now || !same(now, bytes))) return `changes ${name}`;
  }
  const changes = [...outcome.changes, ...(outcome.check?.repairs ?? [])];
  const { model } = await openWorkbook(after);
  const sheets = model.sheets.slice(0, outcome.model.sheets.length);
  const hasMore = model.sheets.length > sheets.length;
  if (changes.length === 0 && !hasMore) return same(before, after) ? undefined : "changes bytes unasked";
  const expected = withChanges(outcome.model, changes);
  const found = cellsOf(sheets);
  for (const [place, value] of expected)
    if (found.get(place) !== value) return `has ${String(found.get(place))} at ${place}, not ${value}`;
  for (const [place, value] of found)
    if (!expected.has(place)) return `has ${value} at ${place}, where nothing was`;
  const [had, has] = [ownIn(outcome.model.sheets, functions), ownIn(sheets, functions)];
  const keeps = handOver === undefined || handOver === "share";
  return has === (keeps ? had : 0) ? undefined : `has ${has} formulas of ours, of ${had}`;
}

const ownIn = (sheets: readonly SheetModel[], functions: CellFunctions): number =>
  sheets.flatMap(({ cells }) => cells.filter(({ formula }) => formula && callsOurs(formula.text, functions)))
    .length;

const partsByName = (parts: readonly ZipPart[]): Map<string, Uint8Array> =>
  new Map(parts.map(({ name, bytes }) => [name, bytes]));

/** A file has no word for errors that are younger than its format: they are stored as #VALUE!. */
const young = /^#(SPILL!|CALC!|FIELD!|BLOCKED!|CONNECT!|BUSY!|UNKNOWN!|ERROR!|EXTERNAL!)$/;

const inFile = (value: CellValue): string =>
  JSON.stringify(
    typeof value === "object" && value !== null && young.test(value.error) ? { error: "#VALUE!" } : value,
  );

/** Values by place. Empty cells and cells that are not there are alike. */
function cellsOf(sheets: readonly SheetModel[]): Map<string, string> {
  const cells = new Map<string, string>();
  for (const { name, cells: all } of sheets)
    for (const { row, column, value } of all)
      if (value !== null && value !== "") cells.set(`${name}!${row},${column}`, inFile(value));
  return cells;
}

function withChanges(model: WorkbookModel, changes: readonly CellChange[]): Map<string, string> {
  const cells = cellsOf(model.sheets);
  for (const { sheet, row, column, value } of changes)
    if (value === null || value === "") cells.delete(`${sheet}!${row},${column}`);
    else cells.set(`${sheet}!${row},${column}`, inFile(value));
  return cells;
}
