import type { Position } from "../../cells/place.js";
import { getNumfmtParseValueFilter } from "@univerjs/core";
import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import { literalText } from "../../formulas/text-literal.js";
import type { Area } from "../../cells/area.js";
import type { Book } from "./book.js";
import { callAt } from "./calls-in-tokens.js";
import { withoutAt } from "./implicit-intersection.js";
import type { Translation } from "./translation.js";
import { lastColumn, lastRow } from "../values.js";
import { referenceText, type WrittenReference } from "./written-reference.js";

/** What the text of a formula depends on beside the formula. */
export interface Surroundings {
  readonly book: Book;
  /** Rows and columns in use: as far as whole columns and rows are read. */
  readonly height: number;
  readonly width: number;
  /** The cells that a dynamic array fills now, by the cell its formula stands in. */
  readonly spilledFrom: (sheet: number, row: number, column: number) => Area | undefined;
}

/** Count cells whether or not they are in use, so they must see whole columns whole. */
const countCells = new Set(["ROWS", "COLUMNS", "COUNTBLANK"]);

/**
 * A formula as Univer reads it: our functions by their typed names, names and tables written out as cells, "A1#" as the
 * range it stands for, whole columns down to the last row in use.
 */
export function engineText(translation: Translation, at: Position, around: Surroundings): string {
  const { tokens, references } = withoutSpills(translation, at, around);
  return `=${tokens
    .map((token, i) => {
      const reference = token.type === tokenTypes.REF_RANGE ? references[Number(token.value)] : undefined;
      // What is left of it stands around a call that finds one cell.
      if (!reference) return token.value === "SINGLE" ? "" : constant(token);
      const whole = countCells.has(tokens[i - 2]?.value ?? "");
      return referenceText(whole ? reference : inUse(reference, around), at, around.book);
    })
    .join("")}`;
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

function inUse(reference: WrittenReference, { height, width }: Surroundings): WrittenReference {
  const { top, bottom, left, right } = reference;
  return {
    ...reference,
    bottom: top === 0 && bottom === lastRow ? height - 1 : bottom,
    right: left === 0 && right === lastColumn ? width - 1 : right,
  };
}

/** What Univer would take for something else is written so that it does not. */
function constant({ type, value }: Token): string {
  if (type === tokenTypes.NUMBER) return plainNumber(value);
  // "1,046" would be the number 1046 and "2026-03-01" a date.
  const isText = type === tokenTypes.STRING && getNumfmtParseValueFilter(literalText(value))?.z !== undefined;
  return isText ? `(${value}&"")` : value;
}

/** Univer takes a number with an exponent, or with a 0 behind its last decimal, for text in some places. */
function plainNumber(number: string): string {
  const short = String(Number(number));
  if (!/e/i.test(number) && !short.includes("e")) return short;
  const [mantissa = "0", exponent = "0"] = (/e/i.test(number) ? number.toLowerCase() : short).split("e");
  return `(${String(Number(mantissa))}*10^${String(Number(exponent))})`;
}
