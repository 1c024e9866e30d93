import { cellAddress } from "../formulas/cells.js";
import type { Asked, Told } from "./messages.js";
import type { HandOverReport } from "./values.js";

/** A copy, and what to tell of it. */
export interface Answer {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly formulas: number;
  readonly live: number;
  readonly notLive: readonly { readonly sheet: string; readonly address: string; readonly why: string }[];
  readonly errors: readonly { readonly sheet: string; readonly address: string }[];
}

/** How far it is, and whether it should stop. */
interface Work {
  readonly onProgress: (done: number, total: number) => void;
  readonly signal: AbortSignal;
}

/** The script of the worker, beside the page's own. */
const SCRIPT = "hand-over.js";

/**
 * Has a copy of a workbook made.
 *
 * @throws the reason of `work.signal` once it is stopped; Error with a sentence where the workbook cannot be handed over
 */
export function askForCopy(asked: Asked, { onProgress, signal }: Work): Promise<Answer> {
  return new Promise((resolve, reject) => {
    signal.throwIfAborted();
    const worker = new Worker(SCRIPT);
    const end = (): void => {
      worker.terminate();
      signal.removeEventListener("abort", stop);
    };
    const fail = (sentence: string): void => {
      end();
      reject(new Error(sentence));
    };
    const stop = (): void => {
      end();
      // As it is: the frame that stops it knows its own error.
      reject(signal.reason as Error);
    };
    signal.addEventListener("abort", stop);
    worker.onerror = ({ message }) => {
      fail(
        message ? `The copy could not be made: ${message}.` : "The script that makes copies did not load.",
      );
    };
    worker.onmessage = ({ data }: MessageEvent<Told>) => {
      if (data.is === "progress") onProgress(data.done, data.total);
      else if (data.is === "refused") fail(`This workbook ${data.why.replace(/\.$/, "")}.`);
      else {
        end();
        resolve(answerOf(data.bytes, data.report));
      }
    };
    worker.postMessage(asked);
  });
}

function answerOf(bytes: Uint8Array, { formulas, live, notLive, errors }: HandOverReport): Answer {
  return {
    bytes: bytes as Uint8Array<ArrayBuffer>,
    formulas,
    live,
    notLive: notLive.map(({ why, ...cell }) => ({ sheet: cell.sheet, address: cellAddress(cell), why })),
    errors: errors.map((cell) => ({ sheet: cell.sheet, address: cellAddress(cell) })),
  };
}
