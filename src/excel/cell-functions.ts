// The functions bundle as the page has loaded it. Cells call the functions there, so the pane uses the same ones: only
// types are imported.
import { functionsPort, type FunctionsPort } from "../pane/ports/functions-port.js";

declare const Gylesheet: typeof import("./functions.js");

/** Namespace of all functions, as in formulas. */
export const namespace = (): string => Gylesheet.namespace;

/** Undefined if the bundle has not loaded, or if it found no office.js to register its functions with. */
export const cellFunctions = (): FunctionsPort | undefined =>
  typeof Gylesheet === "undefined" ? undefined : functionsPort(Gylesheet);
