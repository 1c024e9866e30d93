// What stands in dist/ besides the bundles: what Excel reads, the page, its icons, and a help page for every function.
import { copyFile, mkdir, readFile, writeFile } from "node:fs/promises";
import { version } from "../../package.json";
import { catalogue } from "../functions/catalogue.js";
import { helpIndex, helpPage } from "../functions/help-page.js";
import { helpPath, metadata } from "../functions/metadata.js";
import { iconPath, iconSizes, manifest } from "./manifest.js";
import { page } from "./page.js";
import type { Release } from "./release.js";
import { styleSheet } from "./theme.js";
import { workedExample } from "./worked-example.js";

const root = new URL("../../", import.meta.url);
const dist = (path: string): URL => new URL(`dist/${path}`, root);

/** Writes everything but the bundles. The metadata comes last: its age tells whether the build is complete. */
export async function writeDist(release: Release): Promise<void> {
  for (const folder of ["help/", "icons/"]) await mkdir(dist(folder), { recursive: true });
  await writeFile(dist("manifest.xml"), manifest(release, version));
  await writeFile(dist("taskpane.html"), page(release));
  const rules = await readFile(new URL("src/pane/pane.css", root), "utf8");
  const plots = await readFile(new URL("node_modules/uplot/dist/uPlot.min.css", root), "utf8");
  await writeFile(dist("pane.css"), `${styleSheet(rules)}\n${plots}`);
  for (const size of iconSizes)
    await copyFile(new URL(`src/excel/${iconPath(size)}`, root), dist(iconPath(size)));
  await writeFile(dist("help/index.html"), helpIndex());
  for (const spec of catalogue) await writeFile(dist(helpPath(spec)), helpPage(spec, workedExample(spec)));
  await writeFile(dist("functions.json"), JSON.stringify(metadata(release.origin), null, 2));
}
