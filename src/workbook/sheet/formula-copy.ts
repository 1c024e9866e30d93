import {
  tokenize,
  tokenTypes,
  translateTokensToA1,
  translateTokensToR1C1,
  type Token,
} from "@borgar/fx/xlsx";
import { cellAddress } from "../../cells/a1.js";

/** Text of a formula in another cell, as if copied there. */
export type FormulaCopy = (row: number, column: number) => string;

const references = new Set<string>([tokenTypes.REF_RANGE, tokenTypes.REF_BEAM]);

/**
 * Prepares a formula for copying from its cell to others: relative references move, everything else keeps its spelling.
 *
 * Only the bare references are translated, through R1C1. A whole formula in R1C1 would come back with names such as "R"
 * read as references, and with sheet names respelled.
 *
 * @param text with or without "=", in file form: other workbooks as "[1]"
 * @param edges what becomes of a reference beyond the edge of the sheet: it wraps around, as in shared formulas, or is
 *   #REF!
 */
export function formulaCopy(
  text: string,
  row: number,
  column: number,
  edges: "wrap" | "error" = "wrap",
): FormulaCopy {
  const pieces: string[] = [];
  const bare: Token[] = [];
  const places: number[] = [];
  for (const token of tokenize(text, { withLocation: false })) {
    if (references.has(token.type)) {
      const sheetEnd = token.value.lastIndexOf("!") + 1;
      pieces.push(token.value.slice(0, sheetEnd));
      places.push(pieces.length);
      bare.push({ type: token.type, value: token.value.slice(sheetEnd) });
      pieces.push("");
    } else pieces.push(token.value);
  }
  const relative = translateTokensToR1C1(bare, cellAddress(row, column));
  return (toRow, toColumn) => {
    const copied = [...pieces];
    const moved = translateTokensToA1(relative, cellAddress(toRow, toColumn), {
      wrapEdges: edges === "wrap",
    });
    for (const [index, { value }] of moved.entries()) {
      copied[places[index] ?? -1] = value;
    }
    return copied.join("");
  };
}
