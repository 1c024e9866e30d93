// Builds dist/: the bundles, the metadata that Excel reads, and a help page for every function.
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { parseArgs } from "node:util";
import webpack from "webpack";
import configuration from "../../webpack.config.js";
import { catalogue } from "../functions/catalogue.js";
import { helpIndex, helpPage } from "../functions/help-page.js";
import { helpPath, metadata } from "../functions/metadata.js";
import { styleSheet } from "./theme.js";

const { values } = parseArgs({ options: { origin: { type: "string", default: "https://localhost:3000" } } });
const origin = values.origin.replace(/\/$/, "");

const dist = (path: string): URL => new URL(`../../dist/${path}`, import.meta.url);

function bundle(): Promise<void> {
  const compiler = webpack(configuration);
  return new Promise((resolve, reject) => {
    compiler.run((error, stats) => {
      if (error) reject(error);
      else if (stats?.hasErrors()) reject(new Error(stats.toString("errors-only")));
      else
        compiler.close(() => {
          resolve();
        });
    });
  });
}

async function words(): Promise<void> {
  await mkdir(dist("help/"), { recursive: true });
  await writeFile(dist("functions.json"), JSON.stringify(metadata(origin), null, 2));
  await writeFile(dist("help/index.html"), helpIndex());
  for (const spec of catalogue) await writeFile(dist(helpPath(spec)), helpPage(spec));
}

async function look(): Promise<void> {
  const rules = await readFile(new URL("../pane/pane.css", import.meta.url), "utf8");
  await writeFile(dist("pane.css"), styleSheet(rules));
}

// The metadata comes last: its age tells whether the build is complete.
await bundle();
await look();
await words();
