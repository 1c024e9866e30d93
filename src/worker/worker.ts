// Does beside the page what goes over a whole workbook: it takes its seconds, and the page would stand still meanwhile.
import { CellFunctions } from "../engine/ours/cell-functions.js";
import { createCustomFunctions } from "../engine/ours/custom-functions.js";
import type { FunctionMetadata } from "../engine/ours/function-metadata.js";
import { NAMESPACE } from "../functions/contract/function-spec.js";
import { metadata } from "../functions/metadata.js";
import { WorkbookError } from "../workbook/error.js";
import { answer, type Calculating } from "./answer.js";
import type { Asked, WorkerTold } from "./messages.js";

/** What there is in a worker besides what pages have. */
interface Scope {
  onmessage: (event: { readonly data: Asked }) => void;
  postMessage(told: WorkerTold): void;
  importScripts(path: string): void;
  CustomFunctions?: unknown;
  Gylesheet?: Pick<Calculating, "useInstruments"> & Pick<CellFunctions, "instrumentsInVain">;
}

const worker = globalThis as unknown as Scope;

/** The functions bundle that cells call: it stands beside this script. */
function calculating(): Calculating {
  const { CustomFunctions, associated } = createCustomFunctions();
  worker.CustomFunctions = CustomFunctions;
  worker.importScripts("functions.js");
  const { Gylesheet } = worker;
  if (!Gylesheet) throw new Error("The functions did not load.");
  const { useInstruments, instrumentsInVain } = Gylesheet;
  const declared = metadata("") as FunctionMetadata;
  return { functions: new CellFunctions(declared, associated, NAMESPACE, instrumentsInVain), useInstruments };
}

async function told(asked: Asked): Promise<WorkerTold> {
  try {
    return await answer(asked, calculating(), (done, total) => {
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
