// Between a page and the worker that makes a copy for it.
import type { HandOverReport } from "./values.js";
import type { Way } from "./way.js";

/** What the page asks for. */
export interface Asked {
  /** The workbook, as a file. */
  readonly bytes: Uint8Array;
  readonly way: Way;
  /** Today, as it is to be shown. */
  readonly date: string;
}

export type Told =
  | { readonly is: "progress"; readonly done: number; readonly total: number }
  | { readonly is: "done"; readonly bytes: Uint8Array; readonly report: HandOverReport }
  /** @property why the end of a sentence that begins with the workbook's name */
  | { readonly is: "refused"; readonly why: string };
