/// <reference types="office-js" />
import type { OwnFunctions } from "../../formulas/own-calls.js";
import type { Formulas } from "../../pane/ports/formulas-port.js";
import { findFormulas } from "./find-formulas.js";
import { HostProblem, inExcel } from "../problem.js";
import { sheetGone } from "../cells/reach.js";
import { readCalls } from "./read-calls.js";
import { renameInWorkbook } from "./rename-instrument.js";
import { repairFormulas } from "./repair-formulas.js";
import { recalculateFormulas } from "./recalculate-formulas.js";

const hidden = (sheet: string): string =>
  `The sheet "${sheet}" is hidden. Right-click the name of any sheet and choose Unhide, then try again.`;
const veryHidden = (sheet: string): string =>
  `The sheet "${sheet}" is hidden by a macro or another program, and only that can show it.`;

/** Our formulas in the open workbook. */
export function excelFormulas(functions: OwnFunctions): Formulas {
  return {
    find: (work) => inExcel((context) => findFormulas(context, functions, work)),
    calls: (formulas) => inExcel((context) => readCalls(context, functions, formulas)),
    recalculate: (formulas, work) =>
      inExcel((context) => recalculateFormulas(context, functions, formulas, work)),
    rename: (formulas, from, to, work) =>
      inExcel((context) => renameInWorkbook(context, functions, formulas, [from, to], work)),
    repair: (cells, work) => inExcel((context) => repairFormulas(context, functions, cells, work)),
    show: ({ sheet: name, address }) =>
      inExcel(async (context) => {
        const sheet = context.workbook.worksheets.getItemOrNullObject(name);
        sheet.load("visibility");
        await context.sync();
        if (sheet.isNullObject) throw new HostProblem(sheetGone(name));
        if (sheet.visibility !== "Visible")
          throw new HostProblem(sheet.visibility === "Hidden" ? hidden(name) : veryHidden(name));
        sheet.activate();
        sheet.getRange(address).select();
        await context.sync();
      }),
  };
}
