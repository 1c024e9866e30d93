// The pane in a frame of the desk: the same as in Excel, around the workbook that the page outside has open.
import type { Host } from "../../pane/ports.js";
import { startPane } from "../../pane/start.js";

/**
 * A function of the page outside, whose errors are made anew here: there they are of another make, which the pane would
 * not know as errors.
 */
function outside<A extends unknown[], R>(ask: (...args: A) => Promise<R>): (...args: A) => Promise<R> {
  return (...args) =>
    ask(...args).catch((error: unknown) => {
      const isForeign =
        !(error instanceof Error) && typeof error === "object" && error !== null && "message" in error;
      throw isForeign ? new Error(String(error.message)) : error;
    });
}

function fromOutside({ parts, formulas, selection, check, handOver, ...rest }: Host): Host {
  return {
    ...rest,
    check: outside(check),
    handOver: outside(handOver),
    parts: { read: outside(parts.read), write: outside(parts.write) },
    formulas: {
      find: outside(formulas.find),
      calls: outside(formulas.calls),
      rerun: outside(formulas.rerun),
      rename: outside(formulas.rename),
      show: outside(formulas.show),
      repair: outside(formulas.repair),
    },
    selection: {
      read: outside(selection.read),
      at: outside(selection.at),
      insert: outside(selection.insert),
      formula: outside(selection.formula),
      watch: selection.watch,
    },
  };
}

const host = (window.parent as { gylesheetHost?: Host }).gylesheetHost;
const root = document.querySelector<HTMLElement>("#pane");
if (host && root) startPane(root, fromOutside(host));

// The page outside knows where F6 leads to.
document.addEventListener("keydown", ({ key, shiftKey }) => {
  if (key === "F6") window.parent.document.dispatchEvent(new KeyboardEvent("keydown", { key, shiftKey }));
});
