// Makes a copy of a workbook beside the page, which would stand still meanwhile: fitting takes its seconds.
import { CellFunctions } from "../engine/cell-functions.js";
import { createCustomFunctions } from "../engine/custom-functions.js";
import type { FunctionMetadata } from "../engine/function-metadata.js";
import { NAMESPACE } from "../functions/function-spec.js";
import { metadata } from "../functions/metadata.js";
import { WorkbookError } from "../workbook/error.js";
import { copyOf, type Calculating } from "./copy-of.js";
import type { Asked, Told } from "./messages.js";

/** What there is in a worker besides what pages have. */
interface Scope {
  onmessage: (event: { readonly data: Asked }) => void;
  postMessage(told: Told): void;
  importScripts(path: string): void;
  CustomFunctions?: unknown;
  Gylesheet?: Pick<Calculating, "useInstruments">;
}

const worker = globalThis as unknown as Scope;

/** The functions bundle that cells call: it stands beside this script. */
function calculating(): Calculating {
  const { CustomFunctions, associated } = createCustomFunctions();
  worker.CustomFunctions = CustomFunctions;
  worker.importScripts("functions.js");
  const { Gylesheet } = worker;
  if (!Gylesheet) throw new Error("The functions did not load.");
  const functions = new CellFunctions(metadata("") as FunctionMetadata, associated, NAMESPACE);
  return { functions, useInstruments: Gylesheet.useInstruments };
}

async function answer(asked: Asked): Promise<Told> {
  try {
    const copy = await copyOf(asked, calculating(), (done, total) => {
      worker.postMessage({ is: "progress", done, total });
    });
    return { is: "done", ...copy };
  } catch (error) {
    if (error instanceof WorkbookError) return { is: "refused", why: error.message };
    throw error;
  }
}

worker.onmessage = ({ data }) => {
  void answer(data).then(
    (told) => {
      worker.postMessage(told);
    },
    // As an error of the worker, which the page hears of.
    (error: unknown) => {
      setTimeout(() => {
        throw error;
      });
    },
  );
};
