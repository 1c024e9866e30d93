import { readdir, stat } from "node:fs/promises";
import { hostname } from "node:os";
import { join } from "node:path";

// What is being written has a name by which a later run knows whose it is: the machine, since folders are shared, and the
// number of the process there.

const machine = hostname()
  .replace(/[^\w.]/g, "_")
  .slice(0, 60);

const ours = /^\.gylesheet-(.+)-(\d+)\.tmp$/;

/** On another machine nobody can tell whether a run still lives, but none takes so long. */
const ONE_DAY = 24 * 60 * 60 * 1000;

/** What this run calls the file that it is writing. */
export const ownName = (): string => `.gylesheet-${machine}-${process.pid}.tmp`;

/** Files that runs have left behind that were killed. This run's own name is among them: it writes one file at a time. */
export async function abandoned(folder: string): Promise<string[]> {
  const names = await readdir(folder).catch(() => []);
  const found: string[] = [];
  for (const name of names) {
    const [, where, number] = ours.exec(name) ?? [];
    if (number === undefined) continue;
    if (where === machine ? !isRunning(Number(number)) : await isOld(join(folder, name))) found.push(name);
  }
  return found;
}

async function isOld(path: string): Promise<boolean> {
  const written = (await stat(path).catch(() => undefined))?.mtimeMs;
  return written !== undefined && written < Date.now() - ONE_DAY;
}

function isRunning(id: number): boolean {
  if (id === process.pid) return false;
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    // One of another user's may not be asked, but it is there.
    return error instanceof Error && "code" in error && error.code === "EPERM";
  }
}
