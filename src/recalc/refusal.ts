import { InstrumentsRefused } from "../instruments/refusal.js";
import { WorkbookError } from "../workbook/error.js";

/** A file that cannot be processed. Its message is one line that completes "<file> …". */
export class FileRefused extends Error {
  override readonly name = "FileRefused";
}

/** Explanations of file system errors, for someone who named a file. */
const causes: Readonly<Record<string, string>> = {
  ENOENT: "does not exist",
  ENOTDIR: "does not exist: what should be a folder is a file",
  EEXIST: "cannot be made: what should be a folder is a file",
  EACCES: "may not be read or written by you",
  EPERM: "may not be written; is it open in another program, or write-protected?",
  EBUSY: "is open in another program",
  EISDIR: "is a folder",
  ENOSPC: "cannot be written: the disk is full",
  EROFS: "cannot be written: the disk is read-only",
};

/** Explanation of a failure as the end of a sentence that begins with the file's name; undefined for a bug of ours. */
export function causeOf(error: unknown): string | undefined {
  if (error instanceof FileRefused || error instanceof WorkbookError) return error.message;
  if (error instanceof InstrumentsRefused) return `has instruments that cannot be used: ${error.message}`;
  if (!(error instanceof Error && "syscall" in error && "code" in error)) return undefined;
  return causes[String(error.code)] ?? `cannot be used (${String(error.code)})`;
}
