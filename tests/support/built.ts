// Tests of bundles need them built, and built from what is tested.
import { spawnSync } from "node:child_process";
import { statSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { bundleForTests } from "../e2e/bundle.js";
import { chromium } from "./tools.js";

const age = (path: string): number =>
  statSync(new URL(`../../${path}`, import.meta.url), { throwIfNoEntry: false })?.mtimeMs ?? 0;

export default async function built(): Promise<void> {
  const ready = fileURLToPath(new URL("../../src/build/ready.mjs", import.meta.url));
  const { status } = spawnSync(process.execPath, [ready], { stdio: "inherit" });
  if (status !== 0) throw new Error("the build failed");
  const newest = Math.max(
    age("dist/functions.json"),
    age("tests/e2e/pane-page.ts"),
    age("tests/e2e/memory-host.ts"),
  );
  if (chromium.present && age("dist/test/pane-page.js") < newest) await bundleForTests("pane-page");
}
