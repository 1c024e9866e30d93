/// <reference types="office-js" />
import { inExcel } from "../problem.js";

/** Looking reads the workbook, so not more often than this. */
const CALM_MS = 5_000;
const EVERY_MS = 30_000;

/**
 * Calls back when a co-author may have changed the instruments. Excel reports no change of XML parts, so this looks again
 * when the pane comes to the front, when someone else changes cells, and now and then while the pane is seen.
 */
export function onOthersEdit(look: () => void): void {
  const calmly = throttled(look);
  const ifSeen = (): void => {
    if (document.visibilityState === "visible") calmly();
  };
  document.addEventListener("visibilitychange", ifSeen);
  window.addEventListener("focus", calmly);
  setInterval(ifSeen, EVERY_MS);
  inExcel(
    async (context) => {
      context.workbook.worksheets.onChanged.add(({ source }) => {
        if ((source as string) === "Remote") calmly();
        return Promise.resolve();
      });
      await context.sync();
    },
    { delayForCellEdit: true },
  ).catch(() => {
    // Without this event the other occasions remain.
  });
}

/** At once, and then once more at the end of each calm time in which it was called again. */
function throttled(look: () => void): () => void {
  let isCalm = false;
  let again = false;
  const run = (): void => {
    if (isCalm) {
      again = true;
      return;
    }
    isCalm = true;
    again = false;
    look();
    setTimeout(() => {
      isCalm = false;
      if (again) run();
    }, CALM_MS);
  };
  return run;
}
