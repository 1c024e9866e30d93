import type { PartSource } from "./package.js";

// What a file is that is no .xlsx workbook, so that the refusal can say what to do.

const compoundSignature = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
const zipSignature = [0x50, 0x4b];
const streamEntry = 128; // bytes of a directory entry in a compound file; sectors are multiples of it

/**
 * Why a file cannot be a zip file with a workbook.
 *
 * @returns undefined when it begins like a zip file
 */
export function foreignFile(bytes: Uint8Array): string | undefined {
  if (bytes.length === 0) return "is empty";
  if (startsWith(bytes, zipSignature)) return undefined;
  if (!startsWith(bytes, compoundSignature)) return "is not an .xlsx workbook";
  if (hasStream(bytes, "EncryptedPackage")) {
    return "is encrypted; open it in Excel and save it without a password";
  }
  if (hasStream(bytes, "Workbook") || hasStream(bytes, "Book")) {
    return "is an old .xls workbook; open it in Excel and save it as .xlsx";
  }
  return "is an old Office file, not an .xlsx workbook";
}

/** What a zip file is whose main part has this content type; undefined for a workbook that we read. */
export function foreignPackage(source: PartSource, mainType: string | undefined): string | undefined {
  const mimetype = source.find("mimetype");
  if (mimetype !== undefined) {
    const sheet = source.text(mimetype).startsWith("application/vnd.oasis.opendocument.spreadsheet");
    return sheet
      ? "is an OpenDocument spreadsheet (.ods); save it as .xlsx"
      : "is an OpenDocument file, not an .xlsx workbook";
  }
  const type = mainType ?? "";
  if (type.includes("ms-excel.sheet.binary")) {
    return "is an .xlsb workbook; open it in Excel and save it as .xlsx";
  }
  if (type.includes("wordprocessingml") || type.includes("ms-word"))
    return "is a Word document, not an .xlsx workbook";
  if (type.includes("presentationml") || type.includes("ms-powerpoint")) {
    return "is a PowerPoint presentation, not an .xlsx workbook";
  }
  const workbook = type.includes("spreadsheetml") || type.includes("ms-excel");
  return workbook ? undefined : "is not an .xlsx workbook";
}

function startsWith(bytes: Uint8Array, signature: readonly number[]): boolean {
  return signature.every((byte, i) => bytes[i] === byte);
}

/** Looks at every place where a directory entry can be: its UTF-16 name, and the length of that name in bytes. */
function hasStream(bytes: Uint8Array, name: string): boolean {
  const length = (name.length + 1) * 2;
  for (let at = 4 * streamEntry; at + streamEntry <= bytes.length; at += streamEntry) {
    if (bytes[at + 64] !== length || bytes[at + 65] !== 0) continue;
    const same = Array.from(name).every(
      (char, i) => bytes[at + 2 * i] === char.charCodeAt(0) && bytes[at + 2 * i + 1] === 0,
    );
    if (same) return true;
  }
  return false;
}
