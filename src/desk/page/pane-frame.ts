// The pane in a frame of the desk: the same as in Excel, around the workbook that the page outside has open.
import type { Host } from "../../pane/ports.js";
import type { Source } from "../../pane/source.js";
import { startPane } from "../../pane/start.js";

/** Errors of the page outside are of another make, which the pane would not know as errors: they are made anew here. */
function ownError(error: unknown): unknown {
  const isForeign =
    !(error instanceof Error) && typeof error === "object" && error !== null && "message" in error;
  return isForeign ? new Error(String(error.message)) : error;
}

type Asks = (...args: unknown[]) => PromiseLike<unknown>;

/** A port of the page outside, in which every promise fails with errors of this frame. */
function outside<T extends object>(port: T): T {
  return new Proxy(port, {
    get: (of, name) => {
      const member: unknown = Reflect.get(of, name);
      if (typeof member !== "function") return member;
      return (...args: unknown[]) =>
        (member as Asks).apply(of, args).then(undefined, (error: unknown) => {
          throw ownError(error);
        });
    },
  });
}

/** Listens for as long as this frame is there: the page outside, and what it tells, go on. */
const whileHere = <T>(source: Source<T>): Source<T> => ({
  on: (listener) => {
    const leave = source.on(listener);
    window.addEventListener("pagehide", ({ persisted }) => {
      if (!persisted) leave();
    });
    return leave;
  },
});

const fromOutside = (host: Host): Host => ({
  ...host,
  ...outside({ check: host.check, handOver: host.handOver }),
  parts: outside(host.parts),
  formulas: outside(host.formulas),
  selection: outside(host.selection),
  selected: whileHere(host.selected),
  edited: whileHere(host.edited),
});

const host = (window.parent as { gylesheetHost?: Host }).gylesheetHost;
const root = document.querySelector<HTMLElement>("#pane");
if (host && root) startPane(root, fromOutside(host));

// The page outside knows where F6 leads to.
document.addEventListener("keydown", ({ key, shiftKey }) => {
  if (key === "F6") window.parent.document.dispatchEvent(new KeyboardEvent("keydown", { key, shiftKey }));
});
