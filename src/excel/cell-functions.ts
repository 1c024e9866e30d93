// The functions bundle as the page has loaded it. Cells call the functions there, so the pane uses the same ones: only
// types are imported.
import { functionsPort, type FunctionsPort } from "../pane/ports/functions-port.js";

declare const Gylesheet: typeof import("./functions.js");

/** Of all functions, in formulas. */
export const namespace = (): string => Gylesheet.namespace;

/** Undefined where the bundle has not arrived, or found no office.js to tell of its functions. */
export const cellFunctions = (): FunctionsPort | undefined =>
  typeof Gylesheet === "undefined" ? undefined : functionsPort(Gylesheet);
