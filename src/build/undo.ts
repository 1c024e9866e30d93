import { place } from "./place.js";
import { forget, type Running } from "./running.js";
import { isExcelPlatform, sideload } from "./sideload.js";
import { doStep } from "./step.js";

/** Removes the add-in from Excel if it is registered. @returns whether it was */
export async function undo({ sideloaded }: Running): Promise<boolean> {
  const { platform } = process;
  const told = sideloaded && isExcelPlatform(platform);
  if (told) await doStep(sideload(platform, place).take);
  await forget();
  return told;
}
