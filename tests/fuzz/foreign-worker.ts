// Plants formulas of ours in workbooks of others and has them recalculated, one after the other.
import { basename } from "node:path";
import { parentPort, workerData } from "node:worker_threads";
import { loadFunctions } from "../support/functions-bundle.js";
import { diceFrom } from "./dice.js";
import { tried } from "./foreign-contract.js";
import { plantings } from "./foreign-plant.js";
import type { ForeignReport, ForeignTask, Seen } from "./foreign-task.js";
import type { Told } from "./watched-worker.js";

const { task, at } = workerData as Told<ForeignTask>;

/** One sentence for all that differ in a name, a cell or a number. */
const general = (sentence: string): string =>
  sentence
    .replace(/"[^"]*"/g, '"…"')
    .replace(/\S+\.(xml|rels|bin)\b/g, (part) => part.replace(/\d+/g, "#"))
    .replace(/(?:'[^']*'|\S+)![A-Z]+\d+/g, "cell")
    .replace(/\d+/g, "#");

function see(seen: Record<string, Seen>, sentence: string, path: string): void {
  const key = general(sentence);
  seen[key] = { count: (seen[key]?.count ?? 0) + 1, in: seen[key]?.in ?? basename(path) };
}

async function run(): Promise<ForeignReport> {
  const bundle = loadFunctions(`${task.root}dist`);
  const counts: Record<string, number> = {};
  const refusals: Record<string, Seen> = {};
  const notes: Record<string, Seen> = {};
  const failures: string[] = [];
  for (const [i, path] of task.paths.entries())
    for (const planting of plantings) {
      at[0] = i;
      let kind = "failed";
      try {
        const what = await tried(path, planting, diceFrom(task.seed), bundle);
        kind = what.kind;
        if (what.why !== undefined) see(refusals, what.why, path);
        for (const note of what.notes) see(notes, note, path);
        failures.push(...what.broken.map((broken) => `${basename(path)}, planted ${planting}: ${broken}`));
      } catch (error) {
        const what = error instanceof Error ? (error.stack ?? error.message) : String(error);
        failures.push(
          `${basename(path)}, planted ${planting}: crashes: ${what.split("\n").slice(0, 4).join(" ")}`,
        );
      }
      counts[`${kind}, planted ${planting}`] = (counts[`${kind}, planted ${planting}`] ?? 0) + 1;
    }
  return { counts, refusals, notes, failures };
}

void run().then((report) => parentPort?.postMessage(report));
