// The licences of everything that is bundled; they must be distributed with it.
import { readdir, readFile } from "node:fs/promises";
import { join, resolve } from "node:path";

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
}

/** @param files ours and others, relative to the root if not absolute */
export async function licences(files: Iterable<string>, root: string): Promise<string> {
  const packages = new Set(
    [...files].flatMap(
      (path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path.replaceAll("\\", "/"))?.[0] ?? [],
    ),
  );
  const notices: string[] = [];
  for (const folder of [...packages].sort()) notices.push(await notice(resolve(root, folder)));
  return `Besides Gylesheet's own scripts these hold parts of:\n\n${notices.join("\n\n")}\n`;
}

async function notice(folder: string): Promise<string> {
  const { name, version, license } = JSON.parse(
    await readFile(join(folder, "package.json"), "utf8"),
  ) as Manifest;
  const file = (await readdir(folder)).find((entry) => /^licen[cs]e/i.test(entry));
  const text = file === undefined ? "" : `\n${(await readFile(join(folder, file), "utf8")).trim()}`;
  return `${name} ${version}, licence ${license ?? "see below"}${text}`;
}
