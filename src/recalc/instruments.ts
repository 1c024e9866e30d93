import { readFile } from "node:fs/promises";
import { nameKey } from "../instruments/name.js";
import { NAMESPACE } from "../instruments/part.js";
import { noInstruments, parseSet, type InstrumentSet } from "../instruments/set.js";
import { storedInstruments } from "../instruments/stored.js";
import type { Workbook } from "../workbook/workbook.js";
import { FileRefused } from "./refusal.js";

/** Instruments from a JSON file. @throws InstrumentsRefused with every wrong field, or the file system's error */
export async function instrumentsFromFile(path: string): Promise<InstrumentSet> {
  return parseSet(await readFile(path, "utf8"));
}

/**
 * The instruments by which a workbook is calculated: those inside it, but for those that a file says otherwise.
 *
 * @throws FileRefused if those inside cannot be read and no file replaces them: they stay as they are
 */
export function instrumentsFor(workbook: Workbook, fromFile: InstrumentSet | undefined): InstrumentSet {
  const inside = instrumentsInside(workbook, fromFile !== undefined);
  if (!fromFile) return inside;
  const replaced = new Set(fromFile.instruments.map(({ name }) => nameKey(name)));
  const kept = inside.instruments.filter(({ name }) => !replaced.has(nameKey(name)));
  return { ...inside, instruments: [...kept, ...fromFile.instruments] };
}

function instrumentsInside(workbook: Workbook, mayBeMissing: boolean): InstrumentSet {
  const { set, refused } = storedInstruments(workbook.customXml(NAMESPACE).map(({ xml }) => xml));
  if (set) return set;
  if (mayBeMissing) return noInstruments;
  const problems = refused.flatMap((part) => part.problems).join(" ");
  throw new FileRefused(
    `has instruments that cannot be read: ${problems} They were left as they are; give others with --instruments.`,
  );
}
