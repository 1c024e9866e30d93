import { cellAddress } from "../../cells/a1.js";
import type { Position } from "../../cells/place.js";
import { quotedSheetName } from "../../formulas/sheet-name.js";
import type { Book } from "./book.js";

/** "Sheet1!A1" */
export function addressOf(at: Position, book: Book): string {
  return `${quotedSheetName(book.sheetNames[at.sheet] ?? "")}!${cellAddress(at.row, at.column)}`;
}
