import { sentenceOf } from "../../pane/parts/failure.js";
import { WorkbookError } from "../../workbook/error.js";

/** Why an operation on a file failed: the end of a sentence that begins with the file's name. */
export function reasonOf(error: unknown): string {
  const sentence = sentenceOf(error);
  return error instanceof WorkbookError || error instanceof RangeError
    ? sentence
    : `could not be opened: ${sentence}`;
}
