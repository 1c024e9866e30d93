import { WorkbookError } from "../error.js";

/** Encodings that packages allow for a part. */
export type Encoding = "utf-8" | "utf-16le" | "utf-16be";

/** Beginning of UTF-16 text: a byte order mark, or "<?" if a program has left that out. */
const beginnings: readonly (readonly [Encoding, readonly number[]])[] = [
  ["utf-16le", [0xff, 0xfe]],
  ["utf-16be", [0xfe, 0xff]],
  ["utf-16le", [0x3c, 0, 0x3f, 0]],
  ["utf-16be", [0, 0x3c, 0, 0x3f]],
];

export function encodingOf(bytes: Uint8Array): Encoding {
  const found = beginnings.find(([, start]) => start.every((byte, i) => bytes[i] === byte));
  return found?.[0] ?? "utf-8";
}

/**
 * Text of an XML part, including the byte order mark, so that it can be written back.
 *
 * @throws WorkbookError if the bytes are neither UTF-8 nor UTF-16, or contradict the part's own declaration
 */
export function decodeXml(part: string, bytes: Uint8Array): string {
  const encoding = encodingOf(bytes);
  let text: string;
  try {
    text = new TextDecoder(encoding, { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch (cause) {
    const name = encoding === "utf-8" ? "UTF-8" : "UTF-16";
    throw new WorkbookError(`is damaged: ${part} is not ${name} text`, { cause });
  }
  if (!mayDeclare(text, encoding)) throw new WorkbookError(`is damaged: ${part} is not UTF-8 text`);
  return text;
}

/**
 * Whether a text can be written in an encoding without contradicting its own declaration. A byte order mark takes
 * precedence.
 */
export function mayDeclare(text: string, encoding: Encoding): boolean {
  if (encoding !== "utf-8") return true;
  const declared = /^\uFEFF?<\?xml\s[^>]*?\sencoding\s*=\s*["']([^"']*)["']/.exec(text)?.[1];
  return declared === undefined || /^(utf-8|us-ascii)$/i.test(declared);
}

export function encodeXml(text: string, encoding: Encoding): Uint8Array {
  if (encoding === "utf-8") return new TextEncoder().encode(text);
  const bytes = new Uint8Array(text.length * 2);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), encoding === "utf-16le");
  return bytes;
}
