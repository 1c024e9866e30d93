// Between a page and the worker that does for it what goes over a whole workbook.
import type { Check } from "../check/check.js";
import type { HandOverReport } from "../handover/values.js";
import type { Way } from "../handover/way.js";

/** What the page asks for. */
export type Asked =
  | {
      readonly wants: "copy";
      /** The workbook, as a file. */
      readonly bytes: Uint8Array;
      readonly way: Way;
      /** Today, as it is to be shown. */
      readonly date: string;
    }
  | { readonly wants: "check"; readonly bytes: Uint8Array };

/** What it gets. */
export type Answer =
  | { readonly is: "copy"; readonly bytes: Uint8Array; readonly report: HandOverReport }
  | { readonly is: "check"; readonly check: Check };

export type WorkerTold =
  | { readonly is: "progress"; readonly done: number; readonly total: number }
  | Answer
  /** @property why the end of a sentence that begins with the workbook's name */
  | { readonly is: "refused"; readonly why: string };
