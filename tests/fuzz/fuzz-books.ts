import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BookReport, BookTask } from "./book-task.js";
import { books } from "./books.js";
import { diceFrom } from "./dice.js";
import { mutated } from "./mutate.js";
import { bundleWorkers, root, twoAtATime, watched } from "./watched-worker.js";

/** Damages so many workbooks and has them recalculated. @returns what failed */
export async function fuzzBooks(seed: number, count: number): Promise<readonly string[]> {
  await bundleWorkers("book-worker");
  const failures: string[] = [];
  const total: Record<string, number> = {};
  const lanes = count < 2 ? [seed] : [seed, seed + 1];
  await twoAtATime(lanes, async (first) => {
    const step = lanes.length;
    const task: BookTask = { root, seed: first, step, books: Math.ceil((count - (first - seed)) / step) };
    const ended = await watched<BookReport>("book-worker", task);
    if (ended.kind !== "done") {
      const what = ended.kind === "hang" ? "does not come to an end" : ended.error;
      failures.push(`a workbook ${what} (--workbooks --books 1 --seed ${ended.at})`);
      return;
    }
    const { counts, slowest, slowestSeed, memory } = ended.report;
    failures.push(...ended.report.failures);
    for (const [kind, n] of Object.entries(counts)) total[kind] = (total[kind] ?? 0) + n;
    console.log(
      `slowest workbook ${slowest.toFixed(0)} ms (seed ${slowestSeed}), process ${(memory / 2 ** 20).toFixed(0)} MB at most`,
    );
  });
  console.log(
    `${count} workbooks: ${Object.entries(total)
      .map(([kind, n]) => `${n} ${kind}`)
      .join(", ")}`,
  );
  return failures;
}

/** Gives damaged workbooks to the command as a process of its own. @returns what failed */
export function fuzzCommand(seed: number, count: number): readonly string[] {
  const all = books(root);
  const failures: string[] = [];
  const statuses: Record<string, number> = {};
  for (let at = seed; at < seed + count; at++) {
    const dice = diceFrom(at);
    const bytes = mutated(dice.pick(all), dice);
    const folder = mkdtempSync(join(tmpdir(), "fuzz-"));
    writeFileSync(join(folder, "in.xlsx"), bytes);
    const args = [`${root}dist/recalc.cjs`, "in.xlsx", "-o", "out.xlsx"];
    const { status, stderr } = spawnSync(process.execPath, args, {
      cwd: folder,
      encoding: "utf8",
      timeout: 120_000,
    });
    const left = readdirSync(folder).sort().join(" ");
    const isDone = status === 0 && left === "in.xlsx out.xlsx" && stderr === "";
    const isRefused =
      status === 1 && left === "in.xlsx" && /^gylesheet-recalc: in\.xlsx [^\n]+\.\n$/.test(stderr);
    const isInputThere = Buffer.compare(readFileSync(join(folder, "in.xlsx")), bytes) === 0;
    if (!(isDone || isRefused) || !isInputThere)
      failures.push(
        `the command ends with ${status} and ${left} (workbook seed ${at}): ${stderr.slice(0, 1000)}`,
      );
    statuses[`status ${status}`] = (statuses[`status ${status}`] ?? 0) + 1;
    rmSync(folder, { recursive: true, force: true });
  }
  console.log(
    `${count} of them through the command: ${Object.entries(statuses)
      .map(([kind, n]) => `${n} ${kind}`)
      .join(", ")}`,
  );
  return failures;
}
