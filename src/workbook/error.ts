/**
 * A workbook that is refused, or a change that it cannot take. The message completes "<file> …" in one line and
 * names no file itself.
 */
export class WorkbookError extends Error {
  override readonly name = "WorkbookError";
}
