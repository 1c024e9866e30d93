import type { PartSource } from "./package.js";
import { encodingOf } from "./text-encoding.js";

// Identifies files that are not .xlsx workbooks, so that the refusal can say what to do.

const compoundSignature = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
const zipSignature = [0x50, 0x4b];
const streamEntry = 128; // bytes of a directory entry in a compound file; sectors are multiples of it

/** What to do about a spreadsheet of another kind. */
const SAVE_AS = "open it in a spreadsheet program and save it as .xlsx (File, Save As)";

/** Files of other spreadsheet programs that begin with text: the beginning, and what they are. */
const texts: readonly (readonly [begins: RegExp, what: string])[] = [
  [
    /<office:document\b[^>]*opendocument\.spreadsheet|opendocument:xmlns:office/,
    "is a flat OpenDocument spreadsheet (.fods)",
  ],
  [/progid="Excel\.Sheet"|urn:schemas-microsoft-com:office:spreadsheet/, "is an XML spreadsheet of 2003"],
  [/^\s*(?:<!doctype html|<html|<table|<meta)\b/i, "is a web page, whatever its name"],
  [/^ID;P/, "is a spreadsheet in the .slk format"],
  [/^TABLE\r?\n0,1/, "is a spreadsheet in the .dif format"],
];

/** Excel before version 5: the first record has a version and a kind. */
const isOldWorkbook = ([record, version, length]: Uint8Array): boolean =>
  record === 0x09 &&
  version !== undefined &&
  [0x00, 0x02, 0x04].includes(version) &&
  [4, 6].includes(length ?? 0);

/**
 * Why a file cannot be a zip file with a workbook, and what to do about it. The content decides, not the file's name.
 *
 * @returns undefined if it begins like a zip file
 */
export function foreignFile(bytes: Uint8Array): string | undefined {
  if (bytes.length === 0) return "is empty";
  if (startsWith(bytes, zipSignature)) return undefined;
  if (isOldWorkbook(bytes)) return `is an old .xls workbook; ${SAVE_AS}`;
  if (!startsWith(bytes, compoundSignature)) return foreignText(bytes) ?? "is not an .xlsx workbook";
  if (hasStream(bytes, "EncryptedPackage")) {
    return "is encrypted; open it in Excel and save it without a password";
  }
  if (hasStream(bytes, "Workbook") || hasStream(bytes, "Book")) return `is an old .xls workbook; ${SAVE_AS}`;
  return "is an old Office file, not an .xlsx workbook";
}

/** Enough of a file to identify it. */
const BEGINNING = 4096;

function foreignText(bytes: Uint8Array): string | undefined {
  const beginning = bytes.subarray(0, BEGINNING);
  const encoding = encodingOf(beginning);
  const text = new TextDecoder(encoding).decode(beginning).replace(/^\uFEFF/, "");
  const known = texts.find(([begins]) => begins.test(text))?.[1];
  if (known !== undefined) return `${known}; ${SAVE_AS}`;
  // In any encoding, a text table has lines and no control characters.
  const isText = ![...beginning].some((byte) => byte < 0x20 && ![0x09, 0x0a, 0x0d].includes(byte));
  return isText || encoding !== "utf-8"
    ? `is not an .xlsx workbook but text, such as .csv; ${SAVE_AS}`
    : undefined;
}

/** What a zip file is, by the content type of its main part; undefined for a workbook that we read. */
export function foreignPackage(source: PartSource, mainType: string | undefined): string | undefined {
  const mimetype = source.find("mimetype");
  if (mimetype !== undefined) {
    const sheet = /^application\/vnd\.(?:oasis\.opendocument\.spreadsheet|sun\.xml\.calc)/.test(
      source.text(mimetype),
    );
    return sheet
      ? `is an OpenDocument spreadsheet (.ods); ${SAVE_AS}`
      : "is an OpenDocument file, not an .xlsx workbook";
  }
  if (source.names().some((name) => /^(?:Index\/.*\.iwa|Index\.zip|index\.apxl)$/i.test(name)))
    return "is a document of Numbers, Pages or Keynote; export a .numbers file as .xlsx (File, Export To, Excel)";
  const type = mainType ?? "";
  if (type.includes("ms-excel.sheet.binary")) {
    return `is an .xlsb workbook; ${SAVE_AS}`;
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

/** Looks at every possible place of a directory entry: its UTF-16 name, and the length of that name in bytes. */
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
