import { libreOffice } from "../support/tools.js";
import { bundleWorkers, watched } from "./watched-worker.js";

export interface NativeTask {
  readonly seed: number;
  readonly books: number;
  /** In each book. */
  readonly formulas: number;
}

export interface NativeReport {
  readonly counts: Readonly<Record<string, number>>;
  readonly failures: readonly string[];
  readonly undecided: readonly string[];
}

const IN_A_BOOK = 500;

/** Has random native formulas calculated by three engines. @returns what failed */
export async function fuzzNative(seed: number, count: number): Promise<readonly string[]> {
  if (!libreOffice.present) return ["LibreOffice is not here, so there is nothing to compare with"];
  await bundleWorkers("native-worker");
  const task: NativeTask = {
    seed,
    books: Math.ceil(count / IN_A_BOOK),
    formulas: Math.min(count, IN_A_BOOK),
  };
  const ended = await watched<NativeReport>("native-worker", task);
  if (ended.kind !== "done")
    return [
      `a book of formulas ${ended.kind === "hang" ? "does not come to an end" : ended.error} (--native --seed ${ended.at})`,
    ];
  const { counts, failures, undecided } = ended.report;
  console.log(
    `${task.books * task.formulas} native formulas: ${Object.entries(counts)
      .map(([kind, n]) => `${n} ${kind}`)
      .join(", ")}`,
  );
  for (const line of undecided) console.log(`undecided: ${line}`);
  return failures;
}
