import { readFile } from "node:fs/promises";
import { dirname } from "node:path";
import { causeOf, FileRefused } from "./refusal.js";
import { writeFileWhole } from "./write-file.js";

const isMissing = (error: unknown): boolean =>
  error instanceof Error && "code" in error && (error.code === "ENOENT" || error.code === "ENOTDIR");

/**
 * Writes the table of changes.
 *
 * @throws FileRefused
 */
export async function writeTable(path: string, table: Uint8Array): Promise<void> {
  try {
    await writeFileWhole(path, table);
  } catch (error) {
    const cause = isMissing(error) ? `there is no folder ${dirname(path)}` : causeOf(error);
    throw cause === undefined ? error : new FileRefused(`was not written: ${cause}`);
  }
}

/**
 * Verifies that the table can be written, by rewriting its present content. Once a workbook is recalculated in place,
 * nobody can tell what it showed before.
 *
 * @throws FileRefused, or the file system's error
 */
export async function proveTable(path: string): Promise<void> {
  const there = await readFile(path).catch((error: unknown) => {
    if (!isMissing(error)) throw error;
    return new Uint8Array();
  });
  await writeTable(path, there);
}
