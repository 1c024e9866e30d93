// Builds dist/library/: what programs import as "gylesheet", and its types.
import { mkdir, readFile, rm, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import ts from "typescript";

const root = new URL("../../", import.meta.url);
const source = new URL("src/library/", root);
const dist = new URL("dist/library/", root);

/**
 * One module without dependencies, for Node and for web pages; not minified, since programs that ship it do that
 * themselves.
 */
async function script(): Promise<void> {
  await build({
    entryPoints: [fileURLToPath(new URL("index.ts", source))],
    outdir: fileURLToPath(dist),
    bundle: true,
    format: "esm",
    target: "es2022",
    logLevel: "warning",
  });
}

/**
 * Declarations of a file, and of those that it imports. Files of the library must state the types of all their exports.
 *
 * @throws if one does not
 */
async function types(name: string): Promise<void> {
  const text = await readFile(new URL(`${name}.ts`, source), "utf8");
  const { outputText, diagnostics = [] } = ts.transpileDeclaration(text, { reportDiagnostics: true });
  const [wrong] = diagnostics;
  if (wrong) throw new Error(`${name}: ${ts.flattenDiagnosticMessageText(wrong.messageText, "\n")}`);
  await writeFile(new URL(`${name}.d.ts`, dist), outputText);
  for (const [, other = ""] of outputText.matchAll(/ from "\.\/(.+)\.js";$/gm)) await types(other);
}

export async function buildLibrary(): Promise<void> {
  await rm(dist, { recursive: true, force: true });
  await mkdir(dist, { recursive: true });
  await Promise.all([script(), types("index")]);
}
