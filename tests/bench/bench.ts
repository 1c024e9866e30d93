// npm run bench: figures for people to read. No test depends on them.
import { readFileSync } from "node:fs";
import { cpus } from "node:os";
import { gzipSync } from "node:zlib";
import { dispatcherTimes } from "./contract.js";
import { deskFigures } from "./desk.js";
import { deviations } from "./deviations.js";
import { explainTimes } from "./explained.js";
import { fermentationRecovery, fermentationTimes } from "./fermentation.js";
import { paneTimes } from "./pane.js";
import { recalcTimes } from "./recalc.js";
import { seasonTimes } from "./season.js";

function section(title: string, lines: readonly string[]): void {
  console.log(`\n${title}\n${lines.map((line) => `  ${line}`).join("\n")}`);
}

const kilobytes = (bytes: number): string => `${(bytes / 1000).toFixed(1)} kB`;

function size(file: string): string {
  const bytes = readFileSync(new URL(`../../dist/${file}`, import.meta.url));
  return `${file}: ${kilobytes(bytes.length)} raw, ${kilobytes(gzipSync(bytes).length)} gzip`;
}

console.log(`Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? "processor"}`);
section("Bundles", ["functions.js", "pane.js", "pane.css"].map(size));
section("The pane, from its script's start until it can be used", await paneTimes());
section("One cell of a formula that fills 10,000 rows, explained", explainTimes());
section("The desk in Chromium, served from this computer", await deskFigures());
section("SEASON in one call", seasonTimes());
section("A log of 10000 readings in one call", fermentationTimes());
section("A thousand synthetic fermentation logs", fermentationRecovery());
section("Through Excel's dispatcher", await dispatcherTimes());
section("recalc", await recalcTimes());
section("Worst deviation from each table, in the units of the check", deviations());
