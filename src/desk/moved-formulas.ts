import { LexerTreeBuilder } from "@univerjs/engine-formula";
import { formulaCopy, type FormulaCopy } from "../workbook/formula-copy.js";
import type { Engine } from "./univer.js";

/** In the middle of a sheet, so that every move stays inside. Only the way from one cell to the other counts. */
const FROM = { row: 524_288, column: 8192 };

/** Filling a column asks for one formula again and again. */
const MOST_KEPT = 1000;

/**
 * Has formulas that are filled, copied or pasted go by the cells beside where they are put, and otherwise stay as they are
 * spelled: Univer's own way loses blanks and the name of the sheet that a formula stands in.
 */
export function moveOnlyReferences({ univer }: Engine): void {
  const builder = univer.__getInjector().get(LexerTreeBuilder);
  const copies = new Map<string, FormulaCopy>();
  builder.moveFormulaRefOffset = (formula, columns, rows) => {
    let copy = copies.get(formula);
    if (!copy) {
      if (copies.size >= MOST_KEPT) copies.clear();
      copy = formulaCopy(formula, FROM.row, FROM.column, "error");
      copies.set(formula, copy);
    }
    return copy(FROM.row + rows, FROM.column + columns);
  };
}
