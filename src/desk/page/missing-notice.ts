import { instrumentMissing } from "../../engine/messages.js";
import { distinctNames } from "../../formulas/named-instruments.js";
import { listed } from "../../pane/workbook/missing.js";
import type { Notice } from "../../pane/parts/notices.js";
import type { KeptNumber } from "../book/kept-numbers.js";

/**
 * Notice about cells that keep their stored values because an instrument is missing; undefined if there are none.
 *
 * @param areUnreadable whether the workbook does contain instruments, which cannot be read here
 */
export function missingNotice(kept: readonly KeptNumber[], areUnreadable: () => boolean): Notice | undefined {
  if (kept.length === 0) return undefined;
  const count = kept.reduce((sum, { cells }) => sum + cells, 0);
  const keep = count === 1 ? "1 cell keeps" : `${count} cells keep`;
  const names = distinctNames(kept.flatMap(({ missing }) => missing));
  const one = names.length === 1;
  const [why, what] = areUnreadable()
    ? ["the instruments of this workbook cannot be read", "Do what the pane says about them"]
    : [
        `${count === 1 ? "it needs" : "they need"} ${listed(names)}, which ${one ? "is" : "are"} not in this workbook`,
        `Add or import the ${one ? "instrument" : "instruments"} in the pane`,
      ];
  return {
    tone: "warning",
    text: `${keep} what the file has, because ${why}. ${what} before you change a reading, or the cells that depend on it show #N/A.`,
    details: kept.map(
      ({ sheet, address, missing }) =>
        `${sheet} ${address}: needs ${missing.map((name) => `"${name}"`).join(", ")}.`,
    ),
    opens: kept.length === 1 ? "Which cell" : "Which cells",
  };
}

/** Why one cell keeps its stored value, and for how long. */
export const whyKept = (missing: readonly string[], areUnreadable: boolean): string =>
  areUnreadable
    ? "The instruments of this workbook cannot be read here; the pane says why. Until that is mended, the cell keeps the value that the file has."
    : `${instrumentMissing(missing)} The cell keeps the value that the file has until you add or import what is missing in the pane.`;
