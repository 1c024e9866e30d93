import { readlink, realpath } from "node:fs/promises";
import { dirname, resolve } from "node:path";

/** Final target of a path through any links, even if the file does not exist yet. */
export async function followed(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch (error) {
    if (!(error instanceof Error && "code" in error && error.code === "ENOENT")) throw error;
    const link = await readlink(path).catch(() => undefined);
    return link === undefined ? path : followed(resolve(dirname(path), link));
  }
}
