import { place } from "./place.js";
import { forget, type Running } from "./running.js";
import { isExcelPlatform, sideload } from "./sideload.js";
import { doStep } from "./step.js";

/** Makes Excel forget the add-in if it has been told of it. @returns whether it had been */
export async function undo({ sideloaded }: Running): Promise<boolean> {
  const { platform } = process;
  const told = sideloaded && isExcelPlatform(platform);
  if (told) await doStep(sideload(platform, place).take);
  await forget();
  return told;
}
