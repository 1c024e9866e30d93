// Builds dist/worker.js, which processes whole workbooks in the background. It is loaded on demand.
import { writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { licences } from "./licences.js";

const root = new URL("../../", import.meta.url);
const path = (name: string): string => fileURLToPath(new URL(name, root));

/** esbuild, as for the desk: most of it is Univer. A classic script, which every browser starts as a worker. */
export async function buildWorker(): Promise<void> {
  const { metafile } = await build({
    entryPoints: { worker: path("src/worker/worker.ts") },
    outdir: path("dist"),
    bundle: true,
    minify: true,
    format: "iife",
    target: "es2022",
    logLevel: "warning",
    define: { "process.env.NODE_ENV": '"production"' },
    metafile: true,
  });
  const text = await licences(Object.keys(metafile.inputs), fileURLToPath(root));
  await writeFile(path("dist/LICENCES-worker.txt"), text);
}
