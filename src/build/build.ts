// Builds dist/: npm run build for development, npm run build -- --origin https://host.example for people to use. With
// --only, a part of it: "add-in" for what Excel, the command and programs need, "desk" for the page that shows a sheet.
import { writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import configurations from "../../webpack.config.js";
import { bundle } from "./bundle.js";
import { buildDesk } from "./desk.js";
import { writeDist } from "./dist.js";
import { buildWorker } from "./worker.js";
import { buildLibrary } from "./library.js";
import { licences } from "./licences.js";
import { development, production } from "./release.js";

const root = new URL("../../", import.meta.url);

try {
  const { values } = parseArgs({ options: { origin: { type: "string" }, only: { type: "string" } } });
  const release = values.origin === undefined ? development : production(values.origin);
  if (values.only !== "desk") {
    const files = await bundle(configurations);
    await writeFile(new URL("dist/LICENCES.txt", root), await licences(files, fileURLToPath(root)));
    await buildWorker();
    await buildLibrary();
    await writeDist(release);
  }
  if (values.only !== "add-in") await buildDesk();
} catch (e) {
  console.error(e instanceof Error ? e.message : e);
  process.exitCode = 1;
}
