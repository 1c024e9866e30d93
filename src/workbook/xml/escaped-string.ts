// Strings in a workbook (the schema's ST_Xstring) write characters that XML does not allow as _xHHHH_, and a text that
// already looks like that with its first "_" written so too.

const escape = /_x([0-9A-Fa-f]{4})_/g;

/** Control characters but tab and line feed, lone surrogates, U+FFFE and U+FFFF; CR too, which XML would turn into LF. */
const forbidden =
  "[\\u0000-\\u0008\\u000B-\\u001F\\uFFFE\\uFFFF]|[\\uD800-\\uDBFF](?![\\uDC00-\\uDFFF])|(?<![\\uD800-\\uDBFF])[\\uDC00-\\uDFFF]";
const toEscape = new RegExp(`_(?=x[0-9A-Fa-f]{4}(?:_|${forbidden}))|${forbidden}`, "g");

/** The characters that a stored string stands for. */
export function unescapeString(stored: string): string {
  if (!stored.includes("_x")) return stored;
  return stored.replace(escape, (_match, hex: string) => String.fromCharCode(parseInt(hex, 16)));
}

/** The string as it is stored, still to be escaped for XML. */
export function escapeString(text: string): string {
  return text.replace(
    toEscape,
    (char) => `_x${char.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`,
  );
}
