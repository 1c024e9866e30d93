import { readFile } from "node:fs/promises";
import { instrumentsInside } from "../engine/instruments-inside.js";
import { nameKey } from "../instruments/name.js";
import { noInstruments, parseSet, type InstrumentSet } from "../instruments/set.js";
import type { Workbook } from "../workbook/workbook.js";

/** Instruments from a JSON file. @throws InstrumentsRefused with every wrong field, or the file system's error */
export async function instrumentsFromFile(path: string): Promise<InstrumentSet> {
  return parseSet(await readFile(path, "utf8"));
}

/**
 * The instruments for a workbook: its own, overridden by those of a file.
 *
 * @throws WorkbookError if its own cannot be read and no file replaces them: they stay as they are
 */
export function instrumentsFor(workbook: Workbook, fromFile: InstrumentSet | undefined): InstrumentSet {
  const inside = instrumentsInside(workbook, {
    instead: fromFile && noInstruments,
    advice: "They were left as they are; give others with --instruments.",
  });
  if (!fromFile) return inside;
  const replaced = new Set(fromFile.instruments.map(({ name }) => nameKey(name)));
  const kept = inside.instruments.filter(({ name }) => !replaced.has(nameKey(name)));
  return { ...inside, instruments: [...kept, ...fromFile.instruments] };
}
