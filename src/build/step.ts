import { spawnSync } from "node:child_process";
import { copyFile, mkdir, rm } from "node:fs/promises";
import { dirname } from "node:path";
import type { SideloadStep } from "./sideload.js";

/** Performs an action. @returns whether it succeeded */
export async function doStep(step: SideloadStep): Promise<boolean> {
  if ("run" in step) return spawnSync(step.run, step.args, { stdio: "ignore" }).status === 0;
  if ("remove" in step) {
    await rm(step.remove, { force: true });
    return true;
  }
  await mkdir(dirname(step.to), { recursive: true });
  await copyFile(step.copy, step.to);
  return true;
}
