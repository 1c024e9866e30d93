import { areaReference, type Area } from "../formulas/cells.js";
import type { SelectedCells, Selection } from "../pane/ports.js";
import type { DeskFormulas } from "./host-formulas.js";
import { shownValue } from "./host-formulas.js";
import type { Sheet } from "./sheet.js";

const nothingSelected = "Select a cell in the sheet first.";

/** What is selected in the sheet on the page, and writing a formula into it. */
export function deskSelection(sheet: Sheet, formulas: DeskFormulas): Selection {
  const area = (): Area => {
    const selected = sheet.selected();
    if (!selected) throw new Error(nothingSelected);
    const { row, column, bottom, right } = selected;
    return { sheet: formulas.sheetName(selected.sheet), top: row, left: column, bottom, right };
  };
  const cells = (found: Area, from: string): SelectedCells => ({
    reference: areaReference(found, from),
    rows: formulas.rows(found),
  });
  return {
    read: () =>
      Promise.resolve().then(() => {
        const selected = area();
        return cells(selected, selected.sheet);
      }),
    at: (reference) =>
      Promise.resolve().then(() => {
        const { sheet: from, top, left } = area();
        const found = formulas.area(reference.replace(/^=/, ""), { sheet: from, row: top, column: left });
        if (!found) throw new Error(`There are no cells "${reference}" in this workbook.`);
        return cells(found, from);
      }),
    insert: async (formula, over) => {
      const selected = sheet.selected();
      if (!selected) throw new Error(nothingSelected);
      const { value, formula: there } = sheet.at(selected);
      if (!over && (value !== null || there !== undefined))
        return { occupied: there === undefined ? String(shownValue(value)) : `=${there}` };
      await sheet.write([{ ...selected, text: formula }]);
      await sheet.settled();
      const { row, column } = selected;
      const name = formulas.sheetName(selected.sheet);
      return {
        inserted: areaReference({ sheet: name, top: row, left: column, bottom: row, right: column }, name),
      };
    },
  };
}
