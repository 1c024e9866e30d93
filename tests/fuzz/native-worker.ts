// Calculates books of random native formulas by three engines, one after the other.
import { parentPort, workerData } from "node:worker_threads";
import { compareEngines, tally, told } from "../native/random-book.js";
import type { NativeReport, NativeTask } from "./fuzz-native.js";
import type { Told } from "./watched-worker.js";

const { task, at } = workerData as Told<NativeTask>;

async function run(): Promise<NativeReport> {
  const counts: Record<string, number> = {};
  const failures: string[] = [];
  const undecided: string[] = [];
  for (let book = 0; book < task.books; book++) {
    const seed = task.seed + book;
    at[0] = seed;
    const { cases, torn } = await compareEngines(seed, task.formulas);
    for (const [verdict, count] of Object.entries(tally(cases)))
      counts[verdict] = (counts[verdict] ?? 0) + count;
    for (const each of cases) {
      if (each.verdict === "ours differs") failures.push(`${told(each)} (--native --seed ${seed})`);
      if (each.verdict === "no two agree" || each.verdict === "ours is another error")
        undecided.push(told(each));
    }
    for (const formula of torn) failures.push(`=${formula} has two values (--native --seed ${seed})`);
  }
  return { counts, failures, undecided };
}

void run().then((report) => {
  parentPort?.postMessage(report);
});
