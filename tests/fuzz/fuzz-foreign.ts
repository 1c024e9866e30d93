// npm run fuzz -- --foreign DIR [--seed 1]
//
// Takes every .xlsx and .xlsm below a folder, such as a spreadsheet library's test files, and twice plants a few formulas of
// ours in it: beside the used cells, reading numbers that are there; and in place of typed numbers, each coming to what stood
// there. Then recalc calculates it in place, and this holds, by the bytes and not by our own reader:
//
// - no cell changes that is not reached from ours by the references formulas hold, nor what stands around the cells;
// - where ours come to what stood there, no number changes at all but in its last digits;
// - every other part is the same to the byte;
// - every planted formula is calculated, or it is told why not;
// - nothing is thrown but refusals, and nothing hangs.
//
// What is refused or kept is no failure; the reasons are counted, each with one workbook that has it.
import { readdirSync } from "node:fs";
import { basename, join } from "node:path";
import type { ForeignReport, ForeignTask, Seen } from "./foreign-task.js";
import { bundleWorkers, root, twoAtATime, watched } from "./watched-worker.js";

/** A workbook that hangs costs the others of its piece, so pieces are small. */
const PIECE = 25;

/** @returns what failed */
export async function fuzzForeign(folder: string, seed: number): Promise<readonly string[]> {
  await bundleWorkers("foreign-worker");
  const paths = readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => /\.xl[st][xm]$/i.test(name) && !basename(name).startsWith("~$"))
    .sort()
    .map((name) => join(folder, name));
  const pieces = Array.from({ length: Math.ceil(paths.length / PIECE) }, (_, i) =>
    paths.slice(i * PIECE, (i + 1) * PIECE),
  );
  const failures: string[] = [];
  const counts: Record<string, number> = {};
  const refusals: Record<string, Seen> = {};
  const notes: Record<string, Seen> = {};
  await twoAtATime(pieces, async (piece) => {
    for (let left = piece; left.length > 0;) {
      const task: ForeignTask = { root, paths: left, seed };
      const ended = await watched<ForeignReport>("foreign-worker", task);
      if (ended.kind === "done") {
        const { report } = ended;
        failures.push(...report.failures);
        for (const [kind, n] of Object.entries(report.counts)) counts[kind] = (counts[kind] ?? 0) + n;
        addSeen(refusals, report.refusals);
        addSeen(notes, report.notes);
        return;
      }
      const what = ended.kind === "hang" ? "does not come to an end" : `ends the thread: ${ended.error}`;
      failures.push(`${basename(left[ended.at] ?? "")} ${what}`);
      left = [...left.slice(0, ended.at), ...left.slice(ended.at + 1)];
    }
  });
  for (const [kind, n] of Object.entries(counts).sort()) console.log(`${String(n).padStart(6)} ${kind}`);
  tally("refused", refusals);
  tally("kept", notes);
  return failures;
}

function addSeen(all: Record<string, Seen>, some: Readonly<Record<string, Seen>>): void {
  for (const [key, seen] of Object.entries(some))
    all[key] = { count: (all[key]?.count ?? 0) + seen.count, in: all[key]?.in ?? seen.in };
}

function tally(title: string, all: Readonly<Record<string, Seen>>): void {
  console.log(`${title}:`);
  for (const [what, { count, in: path }] of Object.entries(all).sort(([, a], [, b]) => b.count - a.count))
    console.log(`${String(count).padStart(6)} ${what} (${path})`);
}
