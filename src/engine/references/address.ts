import { toCol } from "@borgar/fx/xlsx";
import { quoted } from "../../formulas/sheet-name.js";
import type { Book, Position } from "./book.js";

/** "Sheet1!A1" */
export function addressOf(at: Position, book: Book): string {
  return `${quoted(book.sheetNames[at.sheet] ?? "")}!${toCol(at.column)}${at.row + 1}`;
}
