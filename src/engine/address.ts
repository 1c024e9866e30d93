import { toCol } from "@borgar/fx/xlsx";
import type { Book, Position } from "./book.js";

/** A sheet's name as formulas write it, in quotes where it could be taken for something else. */
export function quoted(sheetName: string): string {
  return /^[A-Za-z_][A-Za-z_0-9]*$/.test(sheetName) && !looksLikeCell.test(sheetName)
    ? sheetName
    : `'${sheetName.replaceAll("'", "''")}'`;
}

const looksLikeCell = /^(?:[A-Za-z]{1,3}[0-9]+|R[0-9]*C?[0-9]*|C[0-9]*|TRUE|FALSE)$/i;

/** "Sheet1!A1" */
export function addressOf(at: Position, book: Book): string {
  return `${quoted(book.sheetNames[at.sheet] ?? "")}!${toCol(at.column)}${at.row + 1}`;
}
