// Processes whole workbooks outside the page's thread: that takes seconds, in which the page would freeze.
import { WorkbookError } from "../workbook/error.js";
import { answer } from "./answer.js";
import type { WorkerRequest, WorkerMessage } from "./messages.js";

/** What a worker's global scope has and a page's has not. */
interface Scope {
  onmessage: (event: { readonly data: WorkerRequest }) => void;
  postMessage(told: WorkerMessage): void;
}

const worker = globalThis as unknown as Scope;

async function told(asked: WorkerRequest): Promise<WorkerMessage> {
  try {
    return await answer(asked, (done, total) => {
      worker.postMessage({ is: "progress", done, total });
    });
  } catch (error) {
    if (error instanceof WorkbookError) return { is: "refused", why: error.message };
    throw error;
  }
}

worker.onmessage = ({ data }) => {
  void told(data).then(
    (tells) => {
      worker.postMessage(tells);
    },
    // Reported as an uncaught error of the worker, which the page receives.
    (error: unknown) => {
      setTimeout(() => {
        throw error;
      });
    },
  );
};
