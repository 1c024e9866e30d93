// The pane on a page of its own, around a workbook in memory. The functions are those of the unmodified bundle.
import { startPane } from "../../src/pane/start.js";
import { functionsPort } from "../../src/pane/ports/functions-port.js";
import { memoryHost, type Book } from "./memory-host.js";

declare const Gylesheet: typeof import("../../src/excel/functions.js");

declare global {
  interface Window {
    book: Book;
    /** The functions as cells call them. */
    cells: Record<string, (...args: unknown[]) => unknown>;
    /** When the pane could first be used, in milliseconds since its scripts had arrived. */
    usableAfter: number;
  }
}

const root = document.querySelector<HTMLElement>("#pane");
if (!root) throw new Error("The page has no place for the pane.");
const begun = performance.now();
new MutationObserver((_, observer) => {
  if (!root.querySelector("main .card")) return;
  window.usableAfter = performance.now() - begun;
  observer.disconnect();
}).observe(root, { childList: true, subtree: true });
startPane(root, memoryHost(window.book, functionsPort(Gylesheet)));
