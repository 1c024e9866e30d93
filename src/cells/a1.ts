import type { Area } from "./area.js";
import { columnLimit, rowLimit } from "./limits.js";
import type { Place } from "./place.js";

const letterA = 65;
const letterZ = 90;
const digit0 = 48;
const digit9 = 57;

/**
 * Place of "B3" or "$B$3".
 *
 * @returns undefined if the text is not a single cell of a sheet
 */
export function parseAddress(text: string): Place | undefined {
  let at = text.charCodeAt(0) === 36 ? 1 : 0;
  let column = 0;
  const lettersFrom = at;
  for (; at < text.length && at - lettersFrom < 4; at++) {
    const code = text.charCodeAt(at) & ~32; // lower case letters to upper case
    if (code < letterA || code > letterZ) break;
    column = column * 26 + code - letterA + 1;
  }
  if (at === lettersFrom) return undefined;
  if (text.charCodeAt(at) === 36) at++;
  let row = 0;
  const digitsFrom = at;
  for (; at < text.length && at - digitsFrom < 8; at++) {
    const code = text.charCodeAt(at);
    if (code < digit0 || code > digit9) return undefined;
    row = row * 10 + code - digit0;
  }
  if (at < text.length || row < 1 || row > rowLimit || column > columnLimit) return undefined;
  return { row: row - 1, column: column - 1 };
}

/** Letters of a column counted from 0, e.g. 27 is "AB". */
export function columnLetters(column: number): string {
  let letters = "";
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(letterA + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/** "B3" for row 2, column 1. */
export function cellAddress(row: number, column: number): string {
  return columnLetters(column) + String(row + 1);
}

/**
 * Area of "A1:C3", or of "B3" alone.
 *
 * @returns undefined if the text is not such an area
 */
export function parseArea(text: string): Area | undefined {
  const [from = "", to = from, ...more] = text.split(":");
  const a = parseAddress(from);
  const b = parseAddress(to);
  if (!a || !b || more.length > 0) return undefined;
  return {
    top: Math.min(a.row, b.row),
    left: Math.min(a.column, b.column),
    bottom: Math.max(a.row, b.row),
    right: Math.max(a.column, b.column),
  };
}

/** "A1:C3"; "B3" for a single cell. */
export function areaText(area: Area): string {
  const first = cellAddress(area.top, area.left);
  const last = cellAddress(area.bottom, area.right);
  return first === last ? first : `${first}:${last}`;
}
