// The pane in a frame of the desk: the same as in Excel, for the workbook that the outer page has open.
import type { Host } from "../../pane/ports.js";
import type { Source } from "../../pane/source.js";
import { startPane } from "../../pane/start.js";

/** Errors of the outer page belong to its realm, so the pane would not recognise them: they are recreated here. */
function ownError(error: unknown): unknown {
  const isForeign =
    !(error instanceof Error) && typeof error === "object" && error !== null && "message" in error;
  return isForeign ? new Error(String(error.message)) : error;
}

type Asks = (...args: unknown[]) => PromiseLike<unknown>;

/** Wraps a port of the outer page so that its promises reject with errors of this frame. */
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

/** Removes its listeners when this frame goes: the outer page and its events live longer. */
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

// The outer page handles F6.
document.addEventListener("keydown", ({ key, shiftKey }) => {
  if (key === "F6") window.parent.document.dispatchEvent(new KeyboardEvent("keydown", { key, shiftKey }));
});
