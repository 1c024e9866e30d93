import { readdir, stat } from "node:fs/promises";
import { hostname } from "node:os";
import { join } from "node:path";

// The name of a file being written shows later runs whose it is: it has the machine, since folders are shared, and the
// process number there.

const machine = hostname()
  .replace(/[^\w.]/g, "_")
  .slice(0, 60);

const ours = /^\.gylesheet-(.+)-(\d+)\.tmp$/;

/** Nobody can tell whether a run on another machine is still alive, but none takes this long. */
const ONE_DAY = 24 * 60 * 60 * 1000;

/** Name of the file that this run is writing. */
export const ownName = (): string => `.gylesheet-${machine}-${process.pid}.tmp`;

/** Files left behind by runs that were killed. This run's own name is among them: it writes one file at a time. */
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
    // A process of another user may not be queried, but it exists.
    return error instanceof Error && "code" in error && error.code === "EPERM";
  }
}
