import { open, rename, rm, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

/**
 * Writes a file so that there is never half of one: beside its place first, then renamed into it.
 *
 * @throws the file system's error; then the old file is as it was and nothing is left beside it
 */
export async function writeFileWhole(path: string, bytes: Uint8Array): Promise<void> {
  const beside = join(dirname(path), `.${basename(path)}.${process.pid}.tmp`);
  try {
    const mode = (await stat(path).catch(() => undefined))?.mode;
    const file = await open(beside, "wx", mode);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}
