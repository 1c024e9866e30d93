import { access, constants, open, readFile, rename, rm, stat, type FileHandle } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { Stats } from "node:fs";
import { abandoned, ownName } from "./abandoned.js";
import { followed } from "./followed.js";
import { FileRefused } from "./refusal.js";

/**
 * Writes a file so that there is never half of one: first beside its place, then renamed into it. A link stays a link,
 * and its target is written; owner and permissions stay as they were.
 *
 * @param asRead content of the file when it was read: if it has changed since, it is left alone
 * @returns what could not be preserved, each completing "<file> …"
 * @throws FileRefused or the file system's error; then the old file is unchanged and nothing is left beside it
 */
export async function writeFileWhole(
  path: string,
  bytes: Uint8Array,
  asRead?: Uint8Array,
): Promise<string[]> {
  const place = await followed(path);
  const there = await ifThere(stat(place));
  if (there) await expectWritable(place, there);
  const folder = dirname(place);
  // Left behind by a run that was killed, perhaps one with the process number of this one.
  for (const name of await abandoned(folder)) await rm(join(folder, name), { force: true });
  const beside = join(folder, ownName());
  try {
    const file = await open(beside, "wx");
    let lost: string[];
    try {
      lost = there ? await likeBefore(file, there) : [];
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    if (asRead) await expectUnchanged(place, asRead);
    await rename(beside, place);
    return lost;
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}

async function ifThere<T>(asked: Promise<T>): Promise<T | undefined> {
  return asked.catch((error: unknown) => {
    if (error instanceof Error && "code" in error && error.code === "ENOENT") return undefined;
    throw error;
  });
}

const ELSEWHERE = "write the result elsewhere with --output";

/** A read-only file is meant to stay as it is, even if the folder or the user's rights would allow more. */
async function expectWritable(place: string, { mode }: Stats): Promise<void> {
  const isMarked = (mode & 0o222) === 0;
  const isAllowed = await access(place, constants.W_OK).then(
    () => true,
    () => false,
  );
  if (isMarked || !isAllowed) throw new FileRefused(`is read-only: allow writing to it, or ${ELSEWHERE}`);
}

async function expectUnchanged(place: string, asRead: Uint8Array): Promise<void> {
  const now = await ifThere(readFile(place));
  if (!now) throw new FileRefused("has been moved or deleted since it was read");
  if (Buffer.compare(now, asRead) !== 0)
    throw new FileRefused("has been saved by someone else since it was read: run this again");
}

/** Gives a new file the owner, group and permissions of the one that it replaces, as far as permitted. */
async function likeBefore(file: FileHandle, { uid, gid, mode, nlink }: Stats): Promise<string[]> {
  const lost = nlink > 1 ? ["has other names (hard links), under which it stays as it was"] : [];
  const made = await file.stat();
  if (made.gid !== gid && !(await isDone(file.chown(made.uid, gid))))
    throw new FileRefused(`belongs to a group that you are not in, which would lose it: ${ELSEWHERE}`);
  if (made.uid !== uid && !(await isDone(file.chown(uid, gid))))
    lost.push("was another user's, and is yours now");
  await file.chmod(mode & 0o7777);
  return lost;
}

const isDone = (asked: Promise<void>): Promise<boolean> =>
  asked.then(
    () => true,
    () => false,
  );
