import { columnLimit, rowLimit } from "../../cells/limits.js";
import type { Position } from "../../cells/place.js";

/**
 * The text of a formula with relative references, as in R1C1 notation: copies of a formula share it. A fast scan, where
 * parsing the formula takes a hundred times as long.
 *
 * @returns undefined for a formula that may mean something else elsewhere, or needs a closer look: names, tables, "@",
 *   "#", whole rows and columns without "$"
 */
export function relativeText(text: string, { row, column }: Position): string | undefined {
  let relative = "";
  let copied = 0;
  for (let i = 0; i < text.length;) {
    const code = text.charCodeAt(i);
    if (code === QUOTE || code === APOSTROPHE) {
      i = behindQuotes(text, i, code);
    } else if (isDigit(code)) {
      i = behindNumber(text, i);
      if (i < text.length && (isWordCode(text.charCodeAt(i)) || text.charCodeAt(i) === COLON))
        return undefined;
    } else if (isWordCode(code)) {
      const end = behindWord(text, i);
      const next = text.charCodeAt(end);
      if (next === EXCLAMATION) {
        // A range over several sheets.
        if (text.charCodeAt(i - 1) === COLON) return undefined;
      } else if (next !== OPENING) {
        const cell = cellAt(text, i, end);
        if (cell) {
          const r = cell.rowFixed ? `R${cell.row}` : `r${cell.row - row}`;
          const c = cell.columnFixed ? `C${cell.column}` : `c${cell.column - column}`;
          relative += `${text.slice(copied, i)}\t${r}${c}`;
          copied = end;
        } else if (!isHeld(text, i, end)) return undefined;
      }
      i = end;
    } else {
      if (code === AT || code === HASH || code === BRACKET) return undefined;
      i++;
    }
  }
  return relative + text.slice(copied);
}

const codeOf = (sign: string): number => sign.charCodeAt(0);
const QUOTE = codeOf('"');
const APOSTROPHE = codeOf("'");
const COLON = codeOf(":");
const EXCLAMATION = codeOf("!");
const OPENING = codeOf("(");
const AT = codeOf("@");
const HASH = codeOf("#");
const BRACKET = codeOf("[");
const DOLLAR = codeOf("$");
const POINT = codeOf(".");
const UNDERSCORE = codeOf("_");
const BACKSLASH = codeOf("\\");
const QUESTION = codeOf("?");

const isDigit = (code: number): boolean => code >= 48 && code <= 57;
const isLetter = (code: number): boolean => (code | 32) >= 97 && (code | 32) <= 122;
/** Characters of names: letters, digits and a few others. */
const isWordCode = (code: number): boolean =>
  isLetter(code) ||
  isDigit(code) ||
  code === DOLLAR ||
  code === POINT ||
  code === UNDERSCORE ||
  code === BACKSLASH ||
  code === QUESTION ||
  code > 127;

function behindQuotes(text: string, start: number, quote: number): number {
  let end = start + 1;
  for (; end < text.length; end++) {
    if (text.charCodeAt(end) !== quote) continue;
    if (text.charCodeAt(end + 1) !== quote) break;
    end++;
  }
  return end + 1;
}

function behindNumber(text: string, start: number): number {
  let end = start;
  while (isDigit(text.charCodeAt(end)) || text.charCodeAt(end) === POINT) end++;
  if ((text.charCodeAt(end) | 32) !== 101) return end;
  const digits = /[+-]/.test(text.charAt(end + 1)) ? end + 2 : end + 1;
  if (!isDigit(text.charCodeAt(digits))) return end;
  for (end = digits; isDigit(text.charCodeAt(end));) end++;
  return end;
}

function behindWord(text: string, start: number): number {
  let end = start;
  while (end < text.length && isWordCode(text.charCodeAt(end))) end++;
  return end;
}

interface Cell {
  readonly row: number;
  readonly column: number;
  readonly rowFixed: boolean;
  readonly columnFixed: boolean;
}

function cellAt(text: string, start: number, end: number): Cell | undefined {
  let i = start;
  const columnFixed = text.charCodeAt(i) === DOLLAR;
  if (columnFixed) i++;
  const letters = i;
  let column = 0;
  for (; i < end && isLetter(text.charCodeAt(i)); i++) column = column * 26 + (text.charCodeAt(i) & 31);
  const rowFixed = text.charCodeAt(i) === DOLLAR;
  if (rowFixed) i++;
  const digits = i;
  let row = 0;
  for (; i < end && isDigit(text.charCodeAt(i)); i++) row = row * 10 + text.charCodeAt(i) - 48;
  const isCell =
    i === end &&
    digits > letters &&
    i > digits &&
    column > 0 &&
    column <= columnLimit &&
    row > 0 &&
    row <= rowLimit;
  return isCell ? { row: row - 1, column: column - 1, rowFixed, columnFixed } : undefined;
}

/** TRUE and FALSE, and absolute whole columns and rows. */
function isHeld(text: string, start: number, end: number): boolean {
  const word = text.slice(start, end);
  return /^(?:true|false|\$[a-z]{1,3}|\$\d+)$/i.test(word);
}
