import type { Area } from "../../cells/area.js";
import { positionKey } from "../../cells/place.js";
import type { Names } from "../../formulas/references.js";
import { foldCase } from "../../formulas/sheet-name.js";
import type { WorkbookModel } from "../../workbook/model.js";
import type { Book } from "./book.js";

/** The names that formulas of a workbook can use. */
export function workbookNames(model: WorkbookModel, book: Book): Names {
  let spills: ReadonlyMap<string, Area> | undefined;
  return {
    sheet: (name) => book.sheetNames[book.sheetNamed(name) ?? -1],
    defined: (name, sheet) => {
      const definition = book.definedName(name, book.sheetNamed(sheet) ?? -1);
      return definition && `=${definition.refersTo}`;
    },
    table: (name) => book.table(name),
    tableAt: ({ sheet, row, column }) =>
      model.tables.find(
        ({ sheet: home, area }) =>
          foldCase(home) === foldCase(sheet) &&
          row >= area.top &&
          row <= area.bottom &&
          column >= area.left &&
          column <= area.right,
      ),
    spilledFrom: ({ sheet, row, column }) => {
      spills ??= spillsIn(model);
      return spills.get(positionKey({ sheet: book.sheetNamed(sheet) ?? -1, row, column }));
    },
  };
}

function spillsIn({ sheets }: WorkbookModel): Map<string, Area> {
  const areas = new Map<string, Area>();
  for (const [sheet, { cells }] of sheets.entries())
    for (const { row, column, formula } of cells)
      if (formula?.kind === "spill" && formula.area)
        areas.set(positionKey({ sheet, row, column }), formula.area);
  return areas;
}
