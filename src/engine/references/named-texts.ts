import type { Position } from "../../cells/place.js";
import { tokenTypes } from "@borgar/fx/xlsx";
import { literalText } from "../../formulas/text-literal.js";
import { type Book } from "./book.js";
import type { CellFunctions } from "../ours/cell-functions.js";
import { translate } from "./translate.js";

/** A text in a cell. */
export interface TextCell extends Position {
  readonly text: string;
}

/**
 * The texts that a formula names: literals, and of the given cells those that it refers to by address, defined name or
 * table.
 */
export function namedTexts(
  formula: string,
  at: Position,
  book: Book,
  functions: CellFunctions,
  cells: readonly TextCell[],
): string[] {
  const { tokens, references } = translate(formula, at, book, functions);
  const own = tokens.filter(({ type }) => type === tokenTypes.STRING).map(({ value }) => literalText(value));
  const read = cells.filter(({ sheet, row, column }) =>
    references.some(
      (area) =>
        area.sheet === sheet &&
        row >= area.top &&
        row <= area.bottom &&
        column >= area.left &&
        column <= area.right,
    ),
  );
  return [...own, ...read.map(({ text }) => text)];
}
