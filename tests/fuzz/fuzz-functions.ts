import { performance } from "node:perf_hooks";
import { catalogue } from "../../src/functions/catalogue.js";
import type { FunctionReport, FunctionTask } from "./function-task.js";
import { bundleWorkers, twoAtATime, watched } from "./watched-worker.js";

const columns = ["numbers", "strings", "booleans", "blanks", "#VALUE!", "#N/A", "#DIV/0!", "#NUM!", "#NULL!"];

function line(name: string, cells: readonly (string | number)[]): string {
  return name.padEnd(23) + cells.map((cell) => String(cell).padStart(9)).join("");
}

/** Calls every function, or one, so many times. @returns how many functions and what failed */
export async function fuzzFunctions(
  name: string | undefined,
  seed: number,
  runs: number,
): Promise<readonly string[]> {
  const names = name === undefined ? catalogue.map((spec) => spec.name) : [name];
  const failures: string[] = [];
  const total: Record<string, number> = {};
  let calls = 0;
  await bundleWorkers("function-worker");
  console.log(line("cells by what they hold", [...columns, "slowest", "calls", "time"]));
  await twoAtATime(names, async (name) => {
    const begun = performance.now();
    const task: FunctionTask = { name, seed, runs };
    const ended = await watched<FunctionReport>("function-worker", task);
    const seconds = `${((performance.now() - begun) / 1000).toFixed(0)} s`;
    if (ended.kind !== "done") {
      const what = ended.kind === "hang" ? "does not come to an end" : ended.error;
      failures.push(`${name}: ${what}, at case ${ended.at} (--function ${name} --seed ${seed})`);
      console.log(`${name}: ${ended.kind}`);
      return;
    }
    const { report } = ended;
    for (const [kind, n] of Object.entries(report.counts)) total[kind] = (total[kind] ?? 0) + n;
    calls += report.calls;
    failures.push(...report.failures.map((failure) => `${name} ${failure}`));
    const counted = columns.map((column) => report.counts[column] ?? 0);
    console.log(line(name, [...counted, `${report.slowest.toFixed(0)} ms`, report.calls, seconds]));
  });
  console.log(line(`${names.length} functions`, [...columns.map((column) => total[column] ?? 0), "", calls]));
  return failures;
}
