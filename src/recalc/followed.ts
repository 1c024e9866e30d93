import { readlink, realpath } from "node:fs/promises";
import { dirname, resolve } from "node:path";

/** The file that a path names in the end, be it through links, and even if it is still to be made. */
export async function followed(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch (error) {
    if (!(error instanceof Error && "code" in error && error.code === "ENOENT")) throw error;
    const link = await readlink(path).catch(() => undefined);
    return link === undefined ? path : followed(resolve(dirname(path), link));
  }
}
