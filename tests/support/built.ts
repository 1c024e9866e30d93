// Tests of bundles need them built, and built from what is tested.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

export default function built(): void {
  const ready = fileURLToPath(new URL("../../src/build/ready.mjs", import.meta.url));
  const { status } = spawnSync(process.execPath, [ready], { stdio: "inherit" });
  if (status !== 0) throw new Error("the build failed");
}
