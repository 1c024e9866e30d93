// Damages workbooks and has them recalculated, one after the other.
import { performance } from "node:perf_hooks";
import { parentPort, workerData } from "node:worker_threads";
import { ways } from "../../src/handover/way.js";
import { loadFunctions } from "../support/functions-bundle.js";
import { dealtWith, type AskedFor } from "./book-contract.js";
import type { BookReport, BookTask } from "./book-task.js";
import { books } from "./books.js";
import { diceFrom, type Dice } from "./dice.js";
import { mutated } from "./mutate.js";
import type { Told } from "./watched-worker.js";

const { task, at } = workerData as Told<BookTask>;

/** How many are copied or repaired, and not just calculated: a live copy takes seconds to fit. */
const SHARE = 0.3;

/** @returns what is asked for, also in words */
function askedFor(dice: Dice): [what: string, asked: AskedFor] {
  const inPlace = dice.chance(0.5);
  if (!dice.chance(SHARE)) return ["", { inPlace, handOver: undefined, repair: false }];
  const what = dice.pick(["repair", ...ways] as const);
  return what === "repair"
    ? [" with --repair", { inPlace, handOver: undefined, repair: true }]
    : [` with --${what}`, { inPlace: false, handOver: what, repair: false }];
}

async function run(): Promise<BookReport> {
  const bundle = loadFunctions(`${task.root}dist`);
  const all = books(task.root);
  const counts: Record<string, number> = {};
  const failures: string[] = [];
  let [slowest, slowestSeed, memory] = [0, task.seed, 0];
  for (let seed = task.seed; seed < task.seed + task.books * task.step; seed += task.step) {
    at[0] = seed;
    const dice = diceFrom(seed);
    const begun = performance.now();
    let kind = "failed";
    try {
      const bytes = mutated(dice.pick(all), dice);
      const [what, asked] = askedFor(dice);
      const dealt = await dealtWith(bytes, asked, bundle);
      kind = `${dealt.kind}${what}`;
      if (dealt.broken !== undefined)
        failures.push(`a workbook${what} ${dealt.broken} (--workbooks --books 1 --seed ${seed})`);
    } catch (error) {
      const what = error instanceof Error ? (error.stack ?? error.message) : String(error);
      failures.push(`a workbook makes it crash: ${what} (--workbooks --books 1 --seed ${seed})`);
    }
    counts[kind] = (counts[kind] ?? 0) + 1;
    const took = performance.now() - begun;
    if (took > slowest) [slowest, slowestSeed] = [took, seed];
    memory = Math.max(memory, process.memoryUsage.rss());
  }
  return { counts, failures, slowest, slowestSeed, memory };
}

void run().then((report) => parentPort?.postMessage(report));
