import { cellAddress } from "../cells/a1.js";
import type { Answer, Asked, WorkerTold } from "./messages.js";

/** How far it is, and whether it should stop. */
interface Work {
  readonly onProgress: (done: number, total: number) => void;
  readonly signal: AbortSignal;
}

/** The script of the worker, beside the page's own. */
const SCRIPT = "worker.js";

/**
 * Has something done that goes over a whole workbook.
 *
 * @throws the reason of `work.signal` once it is stopped; Error with a sentence where it cannot be done
 */
function ask(asked: Asked, { onProgress, signal }: Work): Promise<Answer> {
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
      fail(message ? `It could not be done: ${message}.` : "The script that does this did not load.");
    };
    worker.onmessage = ({ data }: MessageEvent<WorkerTold>) => {
      if (data.is === "progress") onProgress(data.done, data.total);
      else if (data.is === "refused") fail(`This workbook ${data.why.replace(/\.$/, "")}.`);
      else {
        end();
        resolve(data);
      }
    };
    worker.postMessage(asked);
  });
}

/** Of an answer only the kind that was asked for comes. */
function only<K extends Answer["is"]>(answer: Answer, kind: K): Extract<Answer, { readonly is: K }> {
  if (answer.is !== kind) throw new Error(`The worker answers with a ${answer.is}.`);
  return answer as Extract<Answer, { readonly is: K }>;
}

/** A cell by the words that a pane uses. */
const placed = <T extends { readonly sheet: string; readonly row: number; readonly column: number }>({
  row,
  column,
  ...rest
}: T) => ({ ...rest, address: cellAddress(row, column) });

type Copying = Omit<Extract<Asked, { readonly wants: "copy" }>, "wants">;

/** Has a copy made for someone else. */
export async function askForCopy(asked: Copying, work: Work) {
  const { bytes, report } = only(await ask({ wants: "copy", ...asked }, work), "copy");
  const { formulas, live, notLive, errors } = report;
  return {
    bytes: bytes as Uint8Array<ArrayBuffer>,
    formulas,
    live,
    notLive: notLive.map(placed),
    errors: errors.map(placed),
  };
}

/** Has a workbook checked. */
export async function askForCheck(bytes: Uint8Array, work: Work) {
  const { check } = only(await ask({ wants: "check", bytes }, work), "check");
  const { sheets, findings, repairs } = check;
  return {
    sheets,
    findings,
    unbound: repairs.map(({ sheet, row, column }) => placed({ sheet, row, column })),
  };
}
