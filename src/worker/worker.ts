// Does beside the page what goes over a whole workbook: it takes its seconds, and the page would stand still meanwhile.
import { WorkbookError } from "../workbook/error.js";
import { answer } from "./answer.js";
import type { Asked, WorkerTold } from "./messages.js";

/** What there is in a worker besides what pages have. */
interface Scope {
  onmessage: (event: { readonly data: Asked }) => void;
  postMessage(told: WorkerTold): void;
}

const worker = globalThis as unknown as Scope;

async function told(asked: Asked): Promise<WorkerTold> {
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
    // As an error of the worker, which the page hears of.
    (error: unknown) => {
      setTimeout(() => {
        throw error;
      });
    },
  );
};
