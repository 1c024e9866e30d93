import { expect } from "vitest";
import type { CellChange } from "../../src/workbook/model.js";
import { openWorkbook, type PatchExtras } from "../../src/workbook/workbook.js";
import { buildBook, partTexts, type Book } from "./build-workbook.js";

export type Change = Omit<CellChange, "sheet">;

/** A workbook's bytes after changes. */
export async function patchBook(
  bytes: Uint8Array,
  changes: readonly CellChange[],
  extras?: PatchExtras,
): Promise<Uint8Array> {
  return (await openWorkbook(bytes)).patch(changes, extras);
}

/** A part's text before and after a patch, when nothing else was allowed to change. */
export async function patchedSheet(
  xml: string,
  changes: readonly Change[],
  more: Omit<Book, "sheets"> = {},
): Promise<string> {
  const bytes = buildBook({ sheets: { S: xml }, ...more });
  const patched = await patchBook(
    bytes,
    changes.map((change) => ({ sheet: "S", ...change })),
  );
  expectOnlyChanged(bytes, patched, ["xl/worksheets/sheet1.xml"]);
  return partTexts(patched).get("xl/worksheets/sheet1.xml") ?? "";
}

/** All parts after a patch of a workbook with one sheet "S". */
export async function patchedParts(
  xml: string,
  changes: readonly Change[],
  more: Omit<Book, "sheets"> = {},
  extras: PatchExtras = {},
): Promise<Map<string, string>> {
  const bytes = buildBook({ sheets: { S: xml }, ...more });
  return partTexts(
    await patchBook(
      bytes,
      changes.map((change) => ({ sheet: "S", ...change })),
      extras,
    ),
  );
}

/** Same parts in the same order, the same to the byte but for the named ones; `added` ones follow, `dropped` are gone. */
export function expectOnlyChanged(
  before: Uint8Array,
  after: Uint8Array,
  changed: readonly string[],
  added: readonly string[] = [],
  dropped: readonly string[] = [],
): void {
  const [old, now] = [partTexts(before), partTexts(after)];
  const kept = [...old.keys()].filter((name) => !dropped.includes(name));
  expect([...now.keys()]).toEqual([...kept, ...added]);
  for (const name of kept)
    if (!changed.includes(name)) expect([name, now.get(name)]).toEqual([name, old.get(name)]);
}
