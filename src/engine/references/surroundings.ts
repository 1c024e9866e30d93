import type { Position } from "../../cells/place.js";
import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import type { Area } from "../../cells/area.js";
import type { Book } from "./book.js";
import { callAt } from "./calls-in-tokens.js";
import { withoutAt } from "./implicit-intersection.js";
import type { Translation } from "./translation.js";
import type { WrittenReference } from "./written-reference.js";
import { lastColumn, lastRow } from "../../cells/limits.js";

/** What the text of a formula depends on beside the formula. */
export interface Surroundings {
  readonly book: Book;
  /** Rows and columns in use: as far as whole columns and rows are read. */
  readonly height: number;
  readonly width: number;
  /** The cells that a dynamic array fills now, by the cell its formula stands in. */
  readonly spilledFrom: (sheet: number, row: number, column: number) => Area | undefined;
}

/** "A1#", which files have as "ANCHORARRAY(A1)", as the range it stands for now. */
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

/** Whether it asks for what another formula spills. */
export const isSpill = (token: Token | undefined): boolean =>
  token?.value === "#" || (token?.type === tokenTypes.FUNCTION && token.value === "ANCHORARRAY");

/** Count cells whether or not they are in use, so they must see whole columns whole. */
export const countCells: ReadonlySet<string> = new Set(["ROWS", "COLUMNS", "COUNTBLANK"]);

/** Whole columns and rows go as far as cells are in use. */
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
