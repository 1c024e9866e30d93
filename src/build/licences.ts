// The licences of all that is bundled, which have to go along with it.
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import type { Metafile } from "esbuild";

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
}

/** @param root folder that the paths in the metafile start from */
export async function licences({ inputs }: Metafile, root: string): Promise<string> {
  const packages = new Set(
    Object.keys(inputs).flatMap((path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0] ?? []),
  );
  const notices: string[] = [];
  for (const folder of [...packages].sort()) notices.push(await notice(join(root, folder)));
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
