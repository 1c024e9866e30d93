import { distinctNames } from "../formulas/named-instruments.js";
import { listed } from "../pane/missing.js";
import type { Notice } from "../pane/notices.js";
import type { KeptNumber } from "./kept-numbers.js";

/** What to say of cells that keep their numbers for want of an instrument; undefined where there are none. */
export function missingNotice(kept: readonly KeptNumber[]): Notice | undefined {
  if (kept.length === 0) return undefined;
  const names = distinctNames(kept.flatMap(({ missing }) => missing));
  const count = kept.reduce((sum, { cells }) => sum + cells, 0);
  const [keep, need] = count === 1 ? ["1 cell keeps", "it needs"] : [`${count} cells keep`, "they need"];
  const [are, instruments] = names.length === 1 ? ["is", "the instrument"] : ["are", "the instruments"];
  return {
    tone: "warning",
    text: `${keep} what the file has, because ${need} ${listed(names)}, which ${are} not in this workbook. Add or import ${instruments} in the pane before you change a reading, or what depends on that reading becomes #N/A.`,
    details: kept.map(
      ({ sheet, address, missing }) => `${sheet} ${address}: needs ${missing.map((name) => `"${name}"`).join(", ")}.`,
    ),
    opens: kept.length === 1 ? "Which cell" : "Which cells",
  };
}
