import type { Position } from "../../cells/place.js";
import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import type { Area } from "../../cells/area.js";
import type { Book } from "./book.js";
import { callAt } from "./calls-in-tokens.js";
import { withoutAt } from "./implicit-intersection.js";
import type { Translation } from "./translation.js";
import type { WrittenReference } from "./written-reference.js";
import { lastColumn, lastRow } from "../../cells/limits.js";

/** What the meaning of a formula depends on besides its text. */
export interface Surroundings {
  readonly book: Book;
  /** Rows and columns in use: whole columns and rows are read that far. */
  readonly height: number;
  readonly width: number;
  /** The cells that a dynamic array fills now, by the cell of its formula. */
  readonly spilledFrom: (sheet: number, row: number, column: number) => Area | undefined;
}

/** Replaces "A1#", in files "ANCHORARRAY(A1)", by the range it stands for now. */
export function withoutSpills(translation: Translation, at: Position, around: Surroundings): Translation {
  if (!translation.tokens.some(isSpill)) return translation;
  const tokens = [...translation.tokens];
  const references = [...translation.references];
  for (let i = tokens.length - 1; i >= 0; i--) {
    if (!isSpill(tokens[i])) continue;
    const call = callAt(tokens, i);
    const { start, end } = call ?? { start: i - 1, end: i + 1 };
    const [name] = call ? tokens.slice(call.args[0]?.start, call.args[0]?.end) : [tokens[start]];
    const anchor = name?.type === tokenTypes.REF_RANGE ? references[Number(name.value)] : undefined;
    if (!anchor) continue;
    const area = around.spilledFrom(anchor.sheet, anchor.top, anchor.left);
    if (area) references.push({ ...anchor, bottom: area.bottom, right: area.right });
    const range = { type: tokenTypes.REF_RANGE, value: String(references.length - 1) };
    tokens.splice(start, end - start, area ? range : { type: tokenTypes.ERROR, value: "#REF!" });
  }
  return withoutAt({ ...translation, tokens, references }, at);
}

/** Whether it refers to a spill. */
export const isSpill = (token: Token | undefined): boolean =>
  token?.value === "#" || (token?.type === tokenTypes.FUNCTION && token.value === "ANCHORARRAY");

/** They count cells whether in use or not, so they must see whole columns whole. */
export const countCells: ReadonlySet<string> = new Set(["ROWS", "COLUMNS", "COUNTBLANK"]);

/** Cuts whole columns and rows to the cells in use. */
export function inUse(
  reference: WrittenReference,
  { height, width }: Pick<Surroundings, "height" | "width">,
): WrittenReference {
  const { top, bottom, left, right } = reference;
  return {
    ...reference,
    bottom: top === 0 && bottom === lastRow ? height - 1 : bottom,
    right: left === 0 && right === lastColumn ? width - 1 : right,
  };
}
