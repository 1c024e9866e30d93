import { columnLimit, rowLimit } from "../../cells/limits.js";
import { WorkbookError } from "../error.js";

/** @throws WorkbookError for a place outside any sheet */
export function checkPlace(row: number, column: number): void {
  const inside = row >= 0 && row < rowLimit && column >= 0 && column < columnLimit;
  if (!inside || !Number.isInteger(row) || !Number.isInteger(column)) {
    throw new WorkbookError(`has no cell in row ${row}, column ${column} (counted from 0)`);
  }
}
