import { cellAddress } from "../cells/a1.js";
import type { SheetPlace } from "../cells/place.js";
import type { Area } from "../cells/area.js";
import { asShown, changedCells, showsSame, type ChangedCell } from "../changes/changed-cell.js";
import type { Book } from "../engine/references/book.js";
import { freshValues } from "../engine/fresh-values.js";
import type { Recalculation } from "../engine/recalculation.js";
import { workbookNames } from "../engine/references/workbook-names.js";
import { catalogue } from "../functions/catalogue.js";
import { NAMESPACE } from "../functions/contract/function-spec.js";
import { evaluate } from "../functions/evaluate.js";
import { plusMinus } from "../functions/uncertainty.js";
import { resolveReference } from "../formulas/references.js";
import { callsOurs, typedFormula } from "../formulas/formula-text.js";
import { ownFunctions } from "../formulas/own-calls.js";
import { onlyCall, type SingleCall } from "../formulas/single-call.js";
import type { InstrumentSet } from "../instruments/set.js";
import type { CellValue, WorkbookModel } from "../workbook/model.js";

const own = ownFunctions(NAMESPACE, catalogue);

/** Cells of ours that show something other than the file did, with the uncertainty of each result, if known. */
export function whatChanged(
  model: WorkbookModel,
  result: Recalculation,
  instruments: InstrumentSet,
): ChangedCell[] {
  const before = freshValues(model, { changes: [] });
  const after = freshValues(model, result);
  const argumentsOf = reader(model, result.book, after);
  const areas = new Map(
    result.changes.map(({ sheet, row, column, formula }) => [`${sheet}\n${row}\n${column}`, formula?.area]),
  );
  return model.sheets.flatMap(({ name: sheet, cells }, index) =>
    cells.flatMap(({ row, column, formula }) => {
      if (!formula || !callsOurs(formula.text, own)) return [];
      const area = areas.get(`${sheet}\n${row}\n${column}`) ??
        formula.area ?? { top: row, left: column, bottom: row, right: column };
      const shown = (value: typeof before) => rows(area, (r, c) => asShown(inCell(value(index, r, c))));
      const call = onlyCall(`=${typedFormula(formula.text, own)}`, own);
      const args = call && argumentsOf(call, { sheet, row, column });
      const now = shown(after);
      // Other parts of the formula may alter the result.
      const isPassedOn =
        args && (call.isWhole || showsSame(now[0]?.[0], evaluate(call.name, args, instruments)[0]?.[0]));
      return changedCells(
        { sheet, address: cellAddress(row, column) },
        isPassedOn ? call.name : undefined,
        shown(before),
        now,
        () => (isPassedOn ? plusMinus(call.name, args, instruments) : undefined),
      );
    }),
  );
}

const rows = <T>({ top, left, bottom, right }: Area, at: (row: number, column: number) => T): T[][] =>
  Array.from({ length: bottom - top + 1 }, (_, r) =>
    Array.from({ length: right - left + 1 }, (__, c) => at(top + r, left + c)),
  );

/** A value in the form in which a function receives it from a cell. */
const inCell = (value: CellValue) =>
  typeof value === "object" && value !== null ? { code: value.error } : value;

/** Reads the cells of a call; undefined if a reference leads to none. */
function reader(model: WorkbookModel, book: Book, valueAt: ReturnType<typeof freshValues>) {
  const names = workbookNames(model, book);
  const ends = model.sheets.map(({ cells }) => ({
    row: cells.reduce((last, { row }) => Math.max(last, row), 0),
    column: cells.reduce((last, { column }) => Math.max(last, column), 0),
  }));
  return ({ args }: SingleCall, at: SheetPlace): readonly unknown[] | undefined => {
    const read = args.map((source) => {
      if (!source) return undefined;
      if ("value" in source) return [[source.value]];
      const target = resolveReference(source.reference, at, names);
      if (!target || "text" in target) return target ? [[target.text]] : "lost";
      const sheet = book.sheetNamed(target.sheet) ?? -1;
      // A whole column or row ends with the last cell in use.
      const bottom = Math.max(target.top, Math.min(target.bottom, ends[sheet]?.row ?? 0));
      const right = Math.max(target.left, Math.min(target.right, ends[sheet]?.column ?? 0));
      return rows({ ...target, bottom, right }, (row, column) => inCell(valueAt(sheet, row, column)));
    });
    return read.includes("lost") ? undefined : read;
  };
}
