import { cellAddress } from "../cells/a1.js";
import type { WorkerResponse, WorkerRequest, WorkerMessage } from "./messages.js";

/** Progress and cancellation. */
interface Work {
  readonly onProgress: (done: number, total: number) => void;
  readonly signal: AbortSignal;
}

/** The worker's script, beside the page's own. */
const SCRIPT = "worker.js";

/**
 * Sends a request to a new worker.
 *
 * @throws the reason of `work.signal` once it is aborted; Error with a sentence if the request fails
 */
function ask(asked: WorkerRequest, { onProgress, signal }: Work): Promise<WorkerResponse> {
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
      // Passed on unchanged: the frame that aborted knows its own error.
      reject(signal.reason as Error);
    };
    signal.addEventListener("abort", stop);
    worker.onerror = ({ message }) => {
      fail(message ? `It could not be done: ${message}.` : "The script that does this did not load.");
    };
    worker.onmessage = ({ data }: MessageEvent<WorkerMessage>) => {
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

/** An answer is always of the kind that was requested. */
function only<K extends WorkerResponse["is"]>(
  answer: WorkerResponse,
  kind: K,
): Extract<WorkerResponse, { readonly is: K }> {
  if (answer.is !== kind) throw new Error(`The worker answers with a ${answer.is}.`);
  return answer as Extract<WorkerResponse, { readonly is: K }>;
}

/** Names the fields of a cell as the pane does. */
const placed = <T extends { readonly sheet: string; readonly row: number; readonly column: number }>({
  row,
  column,
  ...rest
}: T) => ({ ...rest, address: cellAddress(row, column) });

type CopyRequest = Omit<Extract<WorkerRequest, { readonly wants: "copy" }>, "wants">;

/** Makes a copy for someone else. */
export async function askForCopy(asked: CopyRequest, work: Work) {
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

/** Checks a workbook. */
export async function askForCheck(bytes: Uint8Array, work: Work) {
  const { check } = only(await ask({ wants: "check", bytes }, work), "check");
  const { sheets, findings, repairs } = check;
  return {
    sheets,
    findings,
    unbound: repairs.map(({ sheet, row, column }) => placed({ sheet, row, column })),
  };
}
