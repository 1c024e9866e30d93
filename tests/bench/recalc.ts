import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { fileURLToPath } from "node:url";
import { catalogueFunctions } from "../../src/engine/ours/catalogue-functions.js";
import { recalculatePromptly } from "../../src/engine/recalculate-promptly.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { batches } from "./batches.js";

const path = (file: string): string => fileURLToPath(new URL(`../../${file}`, import.meta.url));

async function timed<T>(run: () => T | Promise<T>): Promise<[T, string]> {
  const begun = performance.now();
  const result = await run();
  return [result, `${((performance.now() - begun) / 1000).toFixed(2)} s`];
}

/** The whole command as a process of its own, and where its time goes. */
export async function recalcTimes(): Promise<string[]> {
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  try {
    const lines: string[] = [];
    for (const [rows, formulas] of [
      [1000, 8],
      [10_000, 6],
    ] as const) {
      const file = join(folder, "in.xlsx");
      const bytes = batches(rows, formulas);
      writeFileSync(file, bytes);
      const args = [
        "--import",
        new URL("peak-memory.mjs", import.meta.url).href,
        path("dist/recalc.cjs"),
        file,
        "-o",
        join(folder, "out.xlsx"),
      ];
      const [{ stdout, stderr }, whole] = await timed(() =>
        spawnSync(process.execPath, args, { encoding: "utf8" }),
      );
      const peak = /peak (\d+) kB/.exec(stderr)?.[1];
      const [workbook, opening] = await timed(() => openWorkbook(bytes));
      const [{ changes }, calculating] = await timed(() =>
        recalculatePromptly(workbook.model, catalogueFunctions()),
      );
      const [, patching] = await timed(() => workbook.patch(changes));
      lines.push(
        `${rows} rows × ${formulas} formulas: ${whole} whole process, ${(Number(peak) / 1024).toFixed(0)} MB at most${stdout.includes(`${rows * formulas} formulas recalculated`) ? "" : " (NOT ALL RECALCULATED)"}`,
        `  of which opening ${opening}, calculating ${calculating}, patching and zipping ${patching}`,
      );
    }
    return lines;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
