import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";

// The same workbook as other programs would have written it.

const rewritten = (
  bytes: Uint8Array,
  rewrite: (name: string, data: Uint8Array) => readonly [string, Uint8Array],
): Uint8Array =>
  zipSync(Object.fromEntries(Object.entries(unzipSync(bytes)).map(([name, data]) => rewrite(name, data))), {
    mtime: new Date(2026, 0, 5, 8, 30),
  });

/** Text as UTF-16, with the byte order mark that XML asks for unless it is left out. */
export function utf16(text: string, endian: "le" | "be", mark = true): Uint8Array {
  const bytes = new Uint8Array(Buffer.from(mark ? `\uFEFF${text}` : text, "utf16le"));
  return endian === "le" ? bytes : new Uint8Array(Buffer.from(bytes).swap16());
}

/** Every XML part, or those that are named, in UTF-16, and saying so. */
export function inUtf16(
  bytes: Uint8Array,
  endian: "le" | "be",
  { mark = true, only = /\.(xml|rels|vml)$/ }: { readonly mark?: boolean; readonly only?: RegExp } = {},
): Uint8Array {
  return rewritten(bytes, (name, data) => {
    if (!only.test(name)) return [name, data];
    const text = strFromU8(data).replace(
      /^\uFEFF?(<\?xml[^>]*\?>)?/,
      '<?xml version="1.0" encoding="UTF-16"?>',
    );
    return [name, utf16(text, endian, mark)];
  });
}

/** With the paths of Windows in its zip directory. */
export const withBackslashes = (bytes: Uint8Array): Uint8Array =>
  rewritten(bytes, (name, data) => [name.replaceAll("/", "\\"), data]);

/** With its instruments hanging on the package and not on the workbook, as LibreOffice saves them; or on nothing. */
export function withInstrumentsMoved(bytes: Uint8Array, to: "package" | "nothing"): Uint8Array {
  const relation = /<Relationship [^>]*relationships\/customXml"[^>]*\/>/;
  const held = relation.exec(strFromU8(unzipSync(bytes)["xl/_rels/workbook.xml.rels"] ?? new Uint8Array()));
  if (!held) throw new Error("the workbook has no instruments");
  const moved = held[0].replace(/Id="[^"]*"/, 'Id="rIdMoved"');
  return rewritten(bytes, (name, data) => {
    const text = strFromU8(data);
    if (name === "xl/_rels/workbook.xml.rels") return [name, strToU8(text.replace(relation, ""))];
    if (name === "_rels/.rels" && to === "package")
      return [name, strToU8(text.replace("</Relationships>", `${moved}</Relationships>`))];
    return [name, data];
  });
}
