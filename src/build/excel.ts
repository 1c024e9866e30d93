// npm run excel: serves the add-in from this computer and, if Excel is installed, starts Excel with it.
import { readFile, writeFile } from "node:fs/promises";
import { version } from "../../package.json";
import { functions, pane } from "../../webpack.config.js";
import { authorityFile, certificateFolder, certificates } from "./certificates.js";
import { writeDist } from "./dist.js";
import { withPane } from "./excel-workbook.js";
import { instructions } from "./instructions.js";
import { fourParts } from "./manifest.js";
import { place } from "./place.js";
import { development } from "./release.js";
import { remember, remembered, stillServes, type Running } from "./running.js";
import { serve } from "./server.js";
import { isExcelPlatform, sideload } from "./sideload.js";
import { doStep } from "./step.js";
import { undo } from "./undo.js";

const port = Number(new URL(development.origin).port);
const example = new URL("../../examples/season.xlsx", import.meta.url);

/** Registers the add-in with Excel and opens a workbook with it. @returns whether Excel is installed */
async function startExcel(running: Running): Promise<boolean> {
  if (!isExcelPlatform(process.platform)) return false;
  const { present, add, open } = sideload(process.platform, place);
  if (!(await doStep(present))) return false;
  running.sideloaded = true; // set beforehand, so that it is undone in any case
  await remember(running);
  if (!(await doStep(add))) throw new Error("Excel could not be told of the add-in.");
  await writeFile(
    place.workbook,
    await withPane(await readFile(example), development.id, fourParts(version)),
  );
  await doStep(open); // a program that only hands over to Excel gives no reliable result
  return true;
}

function say(started: boolean): void {
  console.log(`The add-in is served at ${development.origin}.`);
  if (started) console.log("Excel opens a workbook with it, and asks before it starts it.");
  else {
    const authority = isExcelPlatform(process.platform) ? undefined : authorityFile(certificateFolder);
    console.log("There is no Excel on this computer that could be started with it.\n");
    console.log(instructions({ origin: development.origin, manifest: place.manifest, authority }));
  }
  console.log("\nCtrl+C here, or npm run excel:stop in another window, stops it.");
}

async function main(): Promise<void> {
  const earlier = await remembered();
  if (earlier && (await stillServes(earlier)))
    throw new Error("The add-in is being served already. npm run excel:stop stops that.");
  await writeDist(development);
  const server = await serve(port, await certificates(process.platform), [functions, pane]);
  const running: Running = { pid: process.pid, port, sideloaded: earlier?.sideloaded ?? false };
  await remember(running);

  const leave = async (): Promise<void> => {
    await server.stop();
    await undo(running);
    process.exit();
  };
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void leave());
  say(await startExcel(running));
}

try {
  await main();
} catch (e) {
  console.error(e instanceof Error ? e.message : e);
  process.exit(1); // a running server would keep the process alive
}
