// npm run fuzz -- --typing: five hundred formulas typed at the desk, key by key.
import { spawnSync } from "node:child_process";
import { root } from "./watched-worker.js";

/** @returns what failed */
export function fuzzTyping(): readonly string[] {
  const vitest = `${root}node_modules/vitest/vitest.mjs`;
  const { status } = spawnSync(process.execPath, [vitest, "run", "tests/e2e/desk-typing.test.ts"], {
    cwd: root,
    env: { ...process.env, TYPING: "all" },
    stdio: "inherit",
  });
  return status === 0 ? [] : ["formulas typed at the desk"];
}
