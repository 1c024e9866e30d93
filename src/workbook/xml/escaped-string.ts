// Strings in a workbook (the schema's ST_Xstring) write characters that XML does not allow as _xHHHH_. A text that
// already looks like that gets its first "_" escaped in the same way.

const escape = /_x([0-9A-Fa-f]{4})_/g;

/**
 * Control characters except tab and line feed, lone surrogates, U+FFFE and U+FFFF; also CR, which XML would turn into
 * LF.
 */
const forbidden =
  "[\\u0000-\\u0008\\u000B-\\u001F\\uFFFE\\uFFFF]|[\\uD800-\\uDBFF](?![\\uDC00-\\uDFFF])|(?<![\\uD800-\\uDBFF])[\\uDC00-\\uDFFF]";
const toEscape = new RegExp(`_(?=x[0-9A-Fa-f]{4}(?:_|${forbidden}))|${forbidden}`, "g");

/** Decodes a stored string. */
export function unescapeString(stored: string): string {
  if (!stored.includes("_x")) return stored;
  return stored.replace(escape, (_match, hex: string) => String.fromCharCode(parseInt(hex, 16)));
}

/** Encodes a text as a stored string, not yet escaped for XML. */
export function escapeString(text: string): string {
  return text.replace(
    toEscape,
    (char) => `_x${char.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`,
  );
}
