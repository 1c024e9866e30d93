import { columnLetters } from "../../cells/a1.js";
import type { Position } from "../../cells/place.js";
import { type RangeA1 } from "@borgar/fx/xlsx";
import { quotedSheetName } from "../../formulas/sheet-name.js";
import type { Book } from "./book.js";
import { lastColumn, lastRow } from "../../cells/limits.js";

/**
 * A reference as written in a formula: relative edges as seen from its own cell, and which edges are absolute ("$").
 */
export interface WrittenReference {
  readonly sheet: number;
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly topFixed: boolean;
  readonly leftFixed: boolean;
  readonly bottomFixed: boolean;
  readonly rightFixed: boolean;
}

/**
 * @param moved rows and columns by which relative edges are shifted, as in a defined name, which is written as seen
 *   from A1; past the last row or column they wrap around to the first
 */
export function writtenReference(
  range: RangeA1,
  sheet: number,
  moved: { readonly rows: number; readonly columns: number },
): WrittenReference {
  const row = (value: Edge, fixed: boolean, whole: number): number =>
    isOpen(value) ? whole : fixed ? value : (value + moved.rows) % (lastRow + 1);
  const column = (value: Edge, fixed: boolean, whole: number): number =>
    isOpen(value) ? whole : fixed ? value : (value + moved.columns) % (lastColumn + 1);
  // A whole column has no rows to shift, so its missing edges count as absolute.
  const topFixed = isOpen(range.top) || range.$top === true;
  const leftFixed = isOpen(range.left) || range.$left === true;
  const bottomFixed = isOpen(range.bottom) || range.$bottom === true;
  const rightFixed = isOpen(range.right) || range.$right === true;
  return ordered({
    sheet,
    top: row(range.top, topFixed, 0),
    left: column(range.left, leftFixed, 0),
    bottom: row(range.bottom, bottomFixed, lastRow),
    right: column(range.right, rightFixed, lastColumn),
    topFixed,
    leftFixed,
    bottomFixed,
    rightFixed,
  });
}

type Edge = number | null | undefined;

function isOpen(edge: Edge): edge is null | undefined {
  return edge === null || edge === undefined;
}

/** B2:A1 means A1:B2. */
function ordered(reference: WrittenReference): WrittenReference {
  const { top, left, bottom, right, topFixed, leftFixed, bottomFixed, rightFixed, sheet } = reference;
  const upsideDown = top > bottom;
  const backToFront = left > right;
  return {
    sheet,
    top: upsideDown ? bottom : top,
    bottom: upsideDown ? top : bottom,
    topFixed: upsideDown ? bottomFixed : topFixed,
    bottomFixed: upsideDown ? topFixed : bottomFixed,
    left: backToFront ? right : left,
    right: backToFront ? left : right,
    leftFixed: backToFront ? rightFixed : leftFixed,
    rightFixed: backToFront ? leftFixed : rightFixed,
  };
}

/** The reference as text, with the sheet's name only if it is on another sheet. */
export function referenceText(reference: WrittenReference, at: Position, book: Book): string {
  const sheet =
    reference.sheet === at.sheet ? "" : `${quotedSheetName(book.sheetNames[reference.sheet] ?? "")}!`;
  const column = (index: number, fixed: boolean): string => (fixed ? "$" : "") + columnLetters(index);
  const row = (index: number, fixed: boolean): string => (fixed ? "$" : "") + String(index + 1);
  const { top, left, bottom, right, topFixed, leftFixed, bottomFixed, rightFixed } = reference;
  if (top === 0 && bottom === lastRow) {
    return `${sheet}${column(left, leftFixed)}:${column(right, rightFixed)}`;
  }
  if (left === 0 && right === lastColumn) return `${sheet}${row(top, topFixed)}:${row(bottom, bottomFixed)}`;
  const first = column(left, leftFixed) + row(top, topFixed);
  return top === bottom && left === right
    ? sheet + first
    : `${sheet}${first}:${column(right, rightFixed)}${row(bottom, bottomFixed)}`;
}
