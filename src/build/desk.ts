// Builds dist/desk/: a folder of static files for any web server.
import { createHash } from "node:crypto";
import { cp, mkdir, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";
import { build, type BuildOptions, type Metafile } from "esbuild";
import { examples } from "../desk/page/examples.js";
import { licences } from "./licences.js";
import { lighter } from "./lighter.js";
import { styleSheet } from "./theme.js";

const root = new URL("../../", import.meta.url);
const source = (path: string): string => fileURLToPath(new URL(`src/desk/${path}`, root));
const dist = (path: string): URL => new URL(`dist/${path}`, root);
const here = (path: string): URL => dist(`desk/${path}`);

/**
 * Not webpack, unlike the bundles for Excel: most of this is Univer, six megabytes even when minified. webpack with
 * esbuild's loader and minimizer takes five times as long for it, and its scripts come out 5 % larger. For Excel it is
 * the other way round: every kilobyte counts there, and webpack's bundles are smaller.
 */
const settings: BuildOptions = {
  outdir: fileURLToPath(here("")),
  bundle: true,
  minify: true,
  format: "esm",
  target: "es2022",
  logLevel: "warning",
  define: { "process.env.NODE_ENV": '"production"' },
};

async function scripts(): Promise<Metafile> {
  const { metafile } = await build({
    ...settings,
    entryPoints: { desk: source("desk.ts"), "pane-frame": source("page/pane-frame.ts") },
    splitting: true,
    plugins: [lighter],
    metafile: true,
  });
  return metafile;
}

/** Makes the browser fetch all modules of the sheet at once, instead of each when another asks for it. */
function modules({ outputs }: Metafile): string {
  const found = new Set<string>();
  const add = (path: string): void => {
    if (found.has(path)) return;
    found.add(path);
    for (const { path: other, kind } of outputs[path]?.imports ?? [])
      if (kind === "import-statement") add(other);
  };
  for (const [path, { entryPoint }] of Object.entries(outputs))
    if (entryPoint?.endsWith("src/desk/workbench.ts")) add(path);
  if (found.size === 0) throw new Error("The desk has no workbench to be fetched beforehand.");
  return [...found].map((path) => `<link rel="modulepreload" href="${basename(path)}" />`).join("\n    ");
}

async function files(metafile: Metafile): Promise<void> {
  // The same bundle, byte for byte, as Excel loads.
  for (const file of ["functions.js", "functions.json", "worker.js", "LICENCES-worker.txt", "pane.css"])
    await cp(dist(file), here(file));
  await cp(dist("LICENCES.txt"), here("LICENCES-add-in.txt"));
  await cp(dist("help/"), here("help/"), { recursive: true });
  const page = await readFile(source("desk.html"), "utf8");
  await writeFile(here("index.html"), page.replace("<!-- modules -->", modules(metafile)));
  await cp(source("pane.html"), here("pane.html"));
  await cp(new URL("node_modules/@univerjs/preset-sheets-core/lib/index.css", root), here("univer.css"));
  await writeFile(here("desk.css"), styleSheet(await readFile(source("desk.css"), "utf8")));
  await mkdir(here("examples/"), { recursive: true });
  for (const name of Object.values(examples))
    await cp(new URL(`examples/${name}`, root), here(`examples/${name}`));
}

/** Everything that the page needs to work offline. */
async function serviceWorker(): Promise<void> {
  const entries = await readdir(here(""), { recursive: true, withFileTypes: true });
  const folder = fileURLToPath(here(""));
  const paths = entries
    .filter((entry) => entry.isFile())
    .map((entry) =>
      `${entry.parentPath}/${entry.name}`.slice(folder.length).replaceAll("\\", "/").replace(/^\//, ""),
    )
    .sort();
  const hash = createHash("sha256");
  for (const path of paths) hash.update(path).update(await readFile(here(path)));
  await build({
    ...settings,
    entryPoints: { "service-worker": source("page/service-worker.ts") },
    define: { FILES: JSON.stringify(paths), VERSION: JSON.stringify(hash.digest("hex").slice(0, 16)) },
  });
}

/**
 * Needs the functions bundle, its metadata and its help pages in dist/. The service worker comes last: its modification
 * time tells whether the build is complete.
 */
export async function buildDesk(): Promise<void> {
  await rm(here(""), { recursive: true, force: true });
  const metafile = await scripts();
  await files(metafile);
  await writeFile(here("LICENCES.txt"), await licences(Object.keys(metafile.inputs), fileURLToPath(root)));
  await serviceWorker();
}
