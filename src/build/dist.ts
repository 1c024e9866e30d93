// Everything in dist/ besides the bundles: the files that Excel reads, the page, its icons, and the help.
import { copyFile, mkdir, readFile, rm, writeFile } from "node:fs/promises";
import { version } from "../../package.json";
import { metadata } from "../functions/metadata.js";
import { helpFiles } from "../help/pages.js";
import { iconPath, iconSizes, manifest } from "./manifest.js";
import { taskPanePage } from "./page.js";
import type { Release } from "./release.js";
import { styleSheet } from "./theme.js";

const root = new URL("../../", import.meta.url);
const dist = (path: string): URL => new URL(`dist/${path}`, root);

/**
 * Writes everything but the bundles. The metadata comes last: its modification time tells whether the build is
 * complete.
 */
export async function writeDist(release: Release): Promise<void> {
  await rm(dist("help/"), { recursive: true, force: true });
  for (const folder of ["help/", "icons/"]) await mkdir(dist(folder), { recursive: true });
  await writeFile(dist("manifest.xml"), manifest(release, version));
  await writeFile(dist("taskpane.html"), taskPanePage(release));
  const rules = await readFile(new URL("src/pane/pane.css", root), "utf8");
  await writeFile(dist("pane.css"), styleSheet(rules));
  for (const size of iconSizes)
    await copyFile(new URL(`src/excel/${iconPath(size)}`, root), dist(iconPath(size)));
  for (const [name, text] of helpFiles()) await writeFile(dist(`help/${name}`), text);
  await writeFile(dist("functions.json"), JSON.stringify(metadata(release.origin), null, 2));
}
