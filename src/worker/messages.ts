// Messages between a page and the worker that processes whole workbooks for it.
import type { Check } from "../check/check.js";
import type { HandOverReport } from "../handover/values.js";
import type { Way } from "../handover/way.js";

/** Request of the page. */
export type WorkerRequest =
  | {
      readonly wants: "copy";
      /** The workbook as a file. */
      readonly bytes: Uint8Array;
      readonly way: Way;
      /** Today's date, as it will be shown. */
      readonly date: string;
    }
  | { readonly wants: "check"; readonly bytes: Uint8Array };

/** Answer of the worker. */
export type WorkerResponse =
  | { readonly is: "copy"; readonly bytes: Uint8Array; readonly report: HandOverReport }
  | { readonly is: "check"; readonly check: Check };

export type WorkerMessage =
  | { readonly is: "progress"; readonly done: number; readonly total: number }
  | WorkerResponse
  /** @property why the end of a sentence that begins with the workbook's name */
  | { readonly is: "refused"; readonly why: string };
