import { stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { followed } from "./followed.js";

/** Programs mark an open workbook by a file beside it. */
const marks: readonly (readonly [program: string, name: (workbook: string) => string])[] = [
  ["Excel", (workbook) => `~$${workbook}`],
  ["LibreOffice", (workbook) => `.~lock.${workbook}#`],
];

/** Warnings about other programs that seem to have a workbook open, each completing "<file> …". */
export async function openElsewhere(path: string): Promise<string[]> {
  const told: string[] = [];
  for (const place of new Set([path, await followed(path)]))
    for (const [program, name] of marks) {
      const mark = name(basename(place));
      const isThere = await stat(join(dirname(place), mark)).then(
        () => true,
        () => false,
      );
      if (isThere)
        told.push(
          `seems to be open in ${program} (${mark} lies beside it): close it there without saving, or that undoes this`,
        );
    }
  return [...new Set(told)];
}
