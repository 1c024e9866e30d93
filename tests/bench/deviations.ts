import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** How far each printed table is missed at worst: what the tests of the core measured. */
export function deviations(): string[] {
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  try {
    const file = join(folder, "deviations");
    spawnSync(process.execPath, ["node_modules/vitest/vitest.mjs", "run", "tests/core"], {
      cwd: fileURLToPath(new URL("../../", import.meta.url)),
      env: { ...process.env, DEVIATIONS: file },
      stdio: "ignore",
    });
    const lines = readFileSync(file, "utf8").trimEnd().split("\n");
    return lines.map((line) => {
      const { test, by } = JSON.parse(line) as { test: string; by: number };
      return `${by.toPrecision(2).padStart(9)}  ${test}`;
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
