import release from "../../package.json";
import { ownFunctions } from "../formulas/own-calls.js";
import type { PartStore } from "../instruments/keeper.js";
import type { Host } from "../pane/ports.js";
import type { FunctionsPort } from "../pane/ports/functions-port.js";
import { pageFiles } from "./workbook/files.js";
import { checkOpenWorkbook, handOver } from "./workbook/whole-workbook.js";
import { coAuthorEdits } from "./workbook/co-author-edits.js";
import { excelFormulas } from "./formulas/our-formulas.js";
import { excelSelection } from "./formulas/selection.js";
import { selections } from "./formulas/selected-formula.js";

/** Excel as a host of the pane. */
export function excelHost(parts: PartStore, functions: FunctionsPort, namespace: string): Host {
  const own = ownFunctions(namespace, functions.list);
  return {
    parts,
    functions,
    formulas: excelFormulas(own),
    selection: excelSelection(own),
    files: pageFiles,
    check: checkOpenWorkbook,
    handOver,
    version: `Gylesheet ${release.version} for Excel.`,
    help: new URL("help/", document.baseURI).href,
    selected: selections(),
    edited: coAuthorEdits(),
  };
}
