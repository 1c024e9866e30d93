/**
 * A workbook that is refused, or a change that it cannot take. The message completes "<file> …" in one line and does
 * not name a file itself.
 */
export class WorkbookError extends Error {
  override readonly name = "WorkbookError";
}
