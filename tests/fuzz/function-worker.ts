// Calls one function with random arguments, and counts what comes.
import { performance } from "node:perf_hooks";
import { parentPort, workerData } from "node:worker_threads";
import fc, { type Arbitrary } from "fast-check";
import { specNamed } from "../../src/functions/catalogue.js";
import { CellError, type Result } from "../../src/functions/contract/cell-value.js";
import type { FunctionSpec } from "../../src/functions/contract/function-spec.js";
import { useInstruments } from "../../src/functions/contract/instruments-port.js";
import { anyArguments } from "../support/any-arguments.js";
import { called, stable } from "../support/cell-contract.js";
import { instruments } from "../support/instruments.js";
import { BATCH, type FunctionReport, type FunctionTask } from "./function-task.js";
import { directions, goesWrongWay, pairOfCalls } from "./rising.js";
import type { Told } from "./watched-worker.js";

/** Of so many calls one is looked at twice: again, cell by cell, and as its explanation has it. */
const ONE_IN = 20;

const MOST_FAILURES = 5;

Error.stackTraceLimit = 0; // most of these calls end in an error, and nobody reads where it was made

const { task, at } = workerData as Told<FunctionTask>;
const spec = specNamed(task.name);
useInstruments(instruments);

const counts: Record<string, number> = {};
const failures: string[] = [];
let [slowest, slowestSeed, done] = [0, task.seed, 0];

function count(result: Result): void {
  const kind = result instanceof CellError ? result.code : result === "" ? "blanks" : `${typeof result}s`;
  counts[kind] = (counts[kind] ?? 0) + 1;
}

function broken(spec: FunctionSpec, args: readonly unknown[], index: number): string | undefined {
  const begun = performance.now();
  const { cells, broken } = called(spec, args);
  const took = performance.now() - begun;
  if (took > slowest) [slowest, slowestSeed] = [took, task.seed + Math.floor(index / BATCH)];
  cells.flat().forEach(count);
  return broken ?? (index % ONE_IN === 0 ? stable(spec, args, cells) : undefined);
}

/** Goes through the cases of one seed; where one fails, a simpler one that fails as well is looked for. */
function batch<T>(
  cases: Arbitrary<T>,
  seed: number,
  runs: number,
  problemOf: (one: T, index: number) => string | undefined,
): void {
  for (const [index, one] of fc.sample(cases, { seed, numRuns: runs }).entries()) {
    at[0] = done;
    const problem = problemOf(one, done);
    done += 1;
    if (problem === undefined || failures.length >= MOST_FAILURES) continue;
    const shrunk = fc.check(
      fc.property(cases, (other) => problemOf(other, 0) === undefined),
      { seed, numRuns: index + 1 },
    );
    const shown = fc.stringify(shrunk.counterexample?.[0] ?? one);
    failures.push(
      `${problem}: ${shown.slice(0, 2000)} (--function ${spec.name} --seed ${seed} --runs ${runs})`,
    );
    return;
  }
}

for (let first = 0; first < task.runs; first += BATCH) {
  const [seed, runs] = [task.seed + first / BATCH, Math.min(BATCH, task.runs - first)];
  batch(anyArguments(spec), seed, runs, (args, index) => broken(spec, args, index));
  for (const [place, way] of directions[spec.name] ?? [])
    batch(pairOfCalls(spec, place), seed, Math.ceil(runs / ONE_IN), (pair) =>
      goesWrongWay(spec, place, way, pair),
    );
}

const report: FunctionReport = { counts, failures, slowest, slowestSeed, calls: done };
parentPort?.postMessage(report);
