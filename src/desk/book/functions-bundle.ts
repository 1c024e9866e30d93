import { CellFunctions } from "../../engine/ours/cell-functions.js";
import { createCustomFunctions } from "../../engine/ours/custom-functions.js";
import type { FunctionMetadata } from "../../engine/ours/function-metadata.js";
import { functionsPort, type BundledFunctions, type FunctionsPort } from "../../pane/ports/functions-port.js";

/** The functions bundle that Excel loads, loaded into this page. */
export interface FunctionsBundle {
  /** For the cells of the sheet. */
  readonly functions: CellFunctions;
  /** For the pane. */
  readonly forPane: FunctionsPort;
}

/** The part of the bundle's only global that is used here. */
type BundleGlobal = BundledFunctions & {
  readonly namespace: string;
  readonly instrumentsInVain: CellFunctions["instrumentsInVain"];
};

/** Loads functions.js and functions.json, which are next to the page exactly as Excel gets them. */
export async function loadFunctions(): Promise<FunctionsBundle> {
  const { CustomFunctions, associated } = createCustomFunctions();
  Object.assign(window, { CustomFunctions });
  const [metadata] = await Promise.all([readMetadata(), runScript("functions.js")]);
  const bundle = (window as { Gylesheet?: BundleGlobal }).Gylesheet;
  if (!bundle) throw new Error("The functions did not load.");
  return {
    functions: new CellFunctions(metadata, associated, bundle.namespace, bundle.instrumentsInVain),
    forPane: functionsPort(bundle),
  };
}

async function readMetadata(): Promise<FunctionMetadata> {
  const answer = await fetch("functions.json");
  if (!answer.ok) throw new Error("The list of functions did not load.");
  return (await answer.json()) as FunctionMetadata;
}

function runScript(path: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.src = path;
    script.onload = () => {
      resolve();
    };
    script.onerror = () => {
      reject(new Error("The functions did not load."));
    };
    document.head.append(script);
  });
}
