const named = new Map([
  ["amp", "&"],
  ["lt", "<"],
  ["gt", ">"],
  ["quot", '"'],
  ["apos", "'"],
]);

export const byteOrderMark = "\uFEFF";

export function withoutByteOrderMark(text: string): string {
  return text.startsWith(byteOrderMark) ? text.slice(1) : text;
}

/** Whether XML 1.0 allows the character. */
export function isXmlChar(code: number): boolean {
  if (code < 0x20) return code === 0x9 || code === 0xa || code === 0xd;
  return code < 0xd800 || (code > 0xdfff && code !== 0xfffe && code !== 0xffff && code <= 0x10ffff);
}

export function isXmlSpace(code: number): boolean {
  return code === 0x20 || code === 0xa || code === 0xd || code === 0x9;
}

/**
 * Character data as an XML reader reports it: line ends are LF, and references are replaced.
 *
 * @returns undefined if a reference is unknown or incomplete
 */
export function decodeCharacters(raw: string): string | undefined {
  const text = raw.includes("\r") ? raw.replaceAll("\r\n", "\n").replaceAll("\r", "\n") : raw;
  let amp = text.indexOf("&");
  if (amp < 0) return text;
  let decoded = "";
  let from = 0;
  for (; amp >= 0; amp = text.indexOf("&", from)) {
    const end = text.indexOf(";", amp);
    const character = end < 0 ? undefined : referenced(text.slice(amp + 1, end));
    if (character === undefined) return undefined;
    decoded += text.slice(from, amp) + character;
    from = end + 1;
  }
  return decoded + text.slice(from);
}

/** In an attribute, a line break or tab counts as a space unless it is written as a reference. */
export function normalizedAttribute(raw: string): string {
  let broken = false;
  for (let i = 0; i < raw.length; i++) broken ||= raw.charCodeAt(i) < 0x20;
  return broken
    ? raw.replaceAll("\r\n", " ").replaceAll("\r", " ").replaceAll("\n", " ").replaceAll("\t", " ")
    : raw;
}

function referenced(name: string): string | undefined {
  if (!name.startsWith("#")) return named.get(name);
  const hex = name.startsWith("#x");
  const digits = name.slice(hex ? 2 : 1);
  const code = parseInt(digits, hex ? 16 : 10);
  const canonical = code.toString(hex ? 16 : 10);
  // parseInt would accept "12abc" and "-1"; only leading zeros may differ.
  if (digits.toLowerCase().padStart(canonical.length, "0") !== canonical.padStart(digits.length, "0"))
    return undefined;
  return isXmlChar(code) ? String.fromCodePoint(code) : undefined;
}

/** Escapes text for element content; all its characters must be allowed in XML. */
export function escapeText(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}

/** Escapes text for an attribute value in double quotes. */
export function escapeAttribute(text: string): string {
  return escapeText(text).replaceAll('"', "&quot;");
}
