import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compileFunction } from "node:vm";
import { CellFunctions } from "../../src/engine/ours/cell-functions.js";
import { createCustomFunctions } from "../../src/engine/ours/custom-functions.js";
import type { FunctionMetadata } from "../../src/engine/ours/function-metadata.js";
import { NAMESPACE } from "../../src/functions/contract/function-spec.js";
import type { InstrumentSet } from "../../src/instruments/set.js";

/** The functions bundle that Excel loads, loaded here. */
export interface FunctionsBundle {
  readonly functions: CellFunctions;
  readonly useInstruments: (set: InstrumentSet) => void;
}

/** @param folder where functions.js and functions.json stand */
export function loadFunctions(folder: string): FunctionsBundle {
  const script = readFileSync(join(folder, "functions.js"), "utf8");
  const metadata = JSON.parse(readFileSync(join(folder, "functions.json"), "utf8")) as FunctionMetadata;
  const { CustomFunctions, associated } = createCustomFunctions();
  // The script is a classic one with a single global; this hands that over without leaving it lying about.
  const load = compileFunction(`${script}\nreturn Gylesheet;`, ["CustomFunctions"]) as (
    host: typeof CustomFunctions,
  ) => Pick<FunctionsBundle, "useInstruments"> & Pick<CellFunctions, "instrumentsInVain">;
  const { useInstruments, instrumentsInVain } = load(CustomFunctions);
  const functions = new CellFunctions(metadata, associated, NAMESPACE, instrumentsInVain);
  return { functions, useInstruments };
}
