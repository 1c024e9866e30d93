// What holds for every workbook that recalc is given.
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FunctionsBundle } from "../../src/recalc/functions-bundle.js";
import { recalculateFile, type Outcome } from "../../src/recalc/recalculate-file.js";
import { causeOf } from "../../src/recalc/refusal.js";
import type { CellChange, CellValue, WorkbookModel } from "../../src/workbook/model.js";
import { unzip, type Part } from "../../src/workbook/unzip.js";
import { openWorkbook } from "../../src/workbook/workbook.js";

export interface Dealt {
  readonly kind: "written" | "nothing new" | "refused";
  /** What is broken of what is promised. */
  readonly broken: string | undefined;
}

const same = (a: Uint8Array, b: Uint8Array): boolean => Buffer.compare(a, b) === 0;

/** Gives a workbook to the command's own code, in a folder of its own. @param inPlace or into another file */
export async function dealtWith(
  bytes: Uint8Array,
  inPlace: boolean,
  bundle: FunctionsBundle,
): Promise<Dealt> {
  const folder = mkdtempSync(join(tmpdir(), "fuzz-"));
  const input = join(folder, "in.xlsx");
  const output = inPlace ? input : join(folder, "out.xlsx");
  try {
    writeFileSync(input, bytes);
    const ended = await attempt(input, output, bundle);
    const left = readdirSync(folder).filter((name) => !["in.xlsx", "out.xlsx"].includes(name));
    if (left.length > 0) return { kind: "refused", broken: `leaves ${left.join(", ")}` };
    if (typeof ended === "string") {
      const isSentence =
        /^[^\n\r]{5,2000}$/.test(ended) && !/undefined|\[object|NaN/.test(ended.replace(/".*"/s, ""));
      if (!isSentence) return { kind: "refused", broken: `refuses with ${JSON.stringify(ended)}` };
      const untouched = same(readFileSync(input), bytes) && (inPlace || !existsSync(output));
      return { kind: "refused", broken: untouched ? undefined : "writes although it refuses" };
    }
    if (!inPlace && !same(readFileSync(input), bytes))
      return { kind: "written", broken: "writes to the input" };
    if (!ended.written)
      return { kind: "nothing new", broken: same(readFileSync(input), bytes) ? undefined : "writes unsaid" };
    return { kind: "written", broken: await wrongInOutput(bytes, readFileSync(output), ended) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** @returns what came of it, or why it is refused. @throws what is no refusal: a mistake of ours */
async function attempt(input: string, output: string, bundle: FunctionsBundle): Promise<Outcome | string> {
  const settings = { handOver: undefined, check: false, repair: false, changes: undefined };
  const onProgress = (): void => undefined;
  try {
    return await recalculateFile(
      { input, output },
      { ...bundle, settings, instruments: undefined, date: "2026-03-01", onProgress },
    );
  } catch (error) {
    const cause = causeOf(error);
    if (cause === undefined) throw error;
    return cause;
  }
}

/** Parts that a recalculation may change: sheets, and what says which of their formulas spill. */
const mayChange = (name: string): boolean =>
  /sheet[^/]*\.xml$|metadata\.xml$|calcChain\.xml$|^\[Content_Types\]\.xml$|workbook\.xml\.rels$/i.test(name);

async function wrongInOutput(
  before: Uint8Array,
  after: Uint8Array,
  outcome: Outcome,
): Promise<string | undefined> {
  const [old, written] = [partsByName(await unzip(before)), partsByName(await unzip(after))];
  for (const [name, bytes] of old) {
    const now = written.get(name);
    if (!mayChange(name) && (!now || !same(now, bytes))) return `changes ${name}`;
  }
  if (outcome.changes.length === 0) return same(before, after) ? undefined : "changes bytes without a change";
  const expected = withChanges(outcome.model, outcome.changes);
  const { model } = await openWorkbook(after);
  const found = cellsOf(model);
  for (const [place, value] of expected)
    if (found.get(place) !== value) return `has ${String(found.get(place))} at ${place}, not ${value}`;
  for (const [place, value] of found)
    if (!expected.has(place)) return `has ${value} at ${place}, where nothing was`;
  return undefined;
}

const partsByName = (parts: readonly Part[]): Map<string, Uint8Array> =>
  new Map(parts.map(({ name, bytes }) => [name, bytes]));

/** A file has no word for errors that are younger than its format: they are stored as #VALUE!. */
const young = /^#(SPILL!|CALC!|FIELD!|BLOCKED!|CONNECT!|BUSY!|UNKNOWN!|ERROR!|EXTERNAL!)$/;

const inFile = (value: CellValue): string =>
  JSON.stringify(
    typeof value === "object" && value !== null && young.test(value.error) ? { error: "#VALUE!" } : value,
  );

/** Values by place. Empty cells and cells that are not there are alike. */
function cellsOf({ sheets }: WorkbookModel): Map<string, string> {
  const cells = new Map<string, string>();
  for (const { name, cells: all } of sheets)
    for (const { row, column, value } of all)
      if (value !== null && value !== "") cells.set(`${name}!${row},${column}`, inFile(value));
  return cells;
}

function withChanges(model: WorkbookModel, changes: readonly CellChange[]): Map<string, string> {
  const cells = cellsOf(model);
  for (const { sheet, row, column, value } of changes)
    if (value === null || value === "") cells.delete(`${sheet}!${row},${column}`);
    else cells.set(`${sheet}!${row},${column}`, inFile(value));
  return cells;
}
