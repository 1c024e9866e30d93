/// <reference types="office-js" />
import { Emitter, type Source } from "../../pane/source.js";
import { inExcel } from "../problem.js";

/** Checking reads the workbook, so it happens at most this often. */
const THROTTLE_MS = 5_000;
const EVERY_MS = 30_000;

/**
 * Fires when a co-author may have changed the instruments. Excel reports no change of XML parts, so this is whenever
 * the pane comes to the front, when someone else changes cells, and periodically while the pane is visible.
 */
export function coAuthorEdits(): Source<void> {
  const edited = new Emitter();
  const calmly = throttled(edited.emit);
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
    // Without this event the other triggers remain.
  });
  return edited;
}

/** Runs at once, then once more at the end of each interval in which it was called again. */
function throttled(act: () => void): () => void {
  let isCalm = false;
  let again = false;
  const run = (): void => {
    if (isCalm) {
      again = true;
      return;
    }
    isCalm = true;
    again = false;
    act();
    setTimeout(() => {
      isCalm = false;
      if (again) run();
    }, THROTTLE_MS);
  };
  return run;
}
