import { WorkbookError } from "../../src/workbook/error.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { bookParts, sheetXml, type Parts } from "./build-workbook.js";

/** Rows of a sheet that is in order. */
export const oneCell = '<row r="1"><c r="A1"><v>1</v></c></row>';

/** Parts of a workbook that is in order, with some replaced. */
export function goodParts(more: Parts = {}): Parts {
  return { ...bookParts({ sheets: { S: sheetXml(oneCell) } }), ...more };
}

/** Why a file is refused; an error when it is opened, or fails in another way. */
export async function refusal(bytes: Uint8Array): Promise<string> {
  try {
    await openWorkbook(bytes);
  } catch (e) {
    if (e instanceof WorkbookError) return e.message;
    throw e;
  }
  throw new Error("it was opened");
}

/** Bytes that do not compress. */
export function noise(length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  let state = 20260105;
  for (let i = 0; i < length; i++) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    bytes[i] = state >>> 24;
  }
  return bytes;
}
