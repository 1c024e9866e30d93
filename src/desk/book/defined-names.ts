import type { IWorkbookData } from "@univerjs/core";
import { SCOPE_WORKBOOK_VALUE_DEFINED_NAME } from "@univerjs/preset-sheets-core";
import type { CellFunctions } from "../../engine/ours/cell-functions.js";
import { typedFormula } from "../../formulas/formula-text.js";
import { foldCase } from "../../formulas/sheet-name.js";
import type { WorkbookModel } from "../../workbook/model.js";
import { sheetId } from "../univer/univer-names.js";

/** The workbook's defined names for Univer, so that formulas typed here can use them. */
export function univerDefinedNames(
  { names, sheets }: WorkbookModel,
  functions: CellFunctions,
): NonNullable<IWorkbookData["resources"]> {
  const all = names.map(({ name, refersTo, sheet }, index) => {
    const home = sheets.findIndex((each) => sheet !== undefined && foldCase(each.name) === foldCase(sheet));
    return {
      id: `n${index}`,
      name,
      formulaOrRefString: `=${typedFormula(refersTo, functions)}`,
      comment: "",
      localSheetId: home < 0 ? SCOPE_WORKBOOK_VALUE_DEFINED_NAME : sheetId(home),
    };
  });
  const data = Object.fromEntries(all.map((name) => [name.id, name]));
  return all.length === 0 ? [] : [{ name: "SHEET_DEFINED_NAME_PLUGIN", data: JSON.stringify(data) }];
}
