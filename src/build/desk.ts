// Builds dist/desk/: a folder of static files that any web server can hand out.
import { cp, mkdir, readFile, rm, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { build, type Plugin } from "esbuild";
import { examples } from "../desk/examples.js";
import { styleSheet } from "./theme.js";

const source = (path: string): string => fileURLToPath(new URL(`../desk/${path}`, import.meta.url));

/** Rules for dividing words of seventy languages, which a sheet does not need. Without them the page is 2 MB lighter. */
const withoutHyphenation: Plugin = {
  name: "without-hyphenation",
  setup(to) {
    to.onResolve({ filter: /^\.\/[a-z-]+[0-9]*(-[a-z0-9]+)*-[\w-]{8}\.js$/ }, ({ importer, kind }) =>
      kind === "dynamic-import" && importer.includes("engine-render")
        ? { path: "none", namespace: "empty" }
        : undefined,
    );
    to.onLoad({ filter: /.*/, namespace: "empty" }, () => ({ contents: "export default {}" }));
  },
};

/** Where the build stands before it is complete, and where it is served from. */
const folder = new URL("../../dist/desk/", import.meta.url);

async function bundle(): Promise<void> {
  await build({
    entryPoints: { desk: source("desk.ts"), "pane-frame": source("pane-frame.ts") },
    outdir: fileURLToPath(folder),
    bundle: true,
    splitting: true,
    minify: true,
    format: "esm",
    target: "es2022",
    logLevel: "warning",
    plugins: [withoutHyphenation],
    define: { "process.env.NODE_ENV": '"production"' },
  });
}

async function files(): Promise<void> {
  const dist = (path: string): URL => new URL(`../${path}`, folder);
  const here = (path: string): URL => new URL(path, folder);
  // The same bundle, byte for byte, that Excel loads.
  for (const file of ["functions.js", "functions.json", "pane.css"]) await cp(dist(file), here(file));
  await cp(dist("help/"), here("help/"), { recursive: true });
  await cp(source("desk.html"), here("index.html"));
  await cp(source("pane.html"), here("pane.html"));
  await cp(
    new URL("../../node_modules/@univerjs/preset-sheets-core/lib/index.css", import.meta.url),
    here("univer.css"),
  );
  await writeFile(here("desk.css"), styleSheet(await readFile(source("desk.css"), "utf8")));
  await mkdir(here("examples/"), { recursive: true });
  for (const name of Object.values(examples))
    await cp(new URL(`../../examples/${name}`, import.meta.url), here(`examples/${name}`));
}

/** Needs the functions bundle, its metadata and its help pages in dist/. */
export async function buildDesk(): Promise<void> {
  await rm(folder, { recursive: true, force: true });
  await bundle();
  await files();
}
