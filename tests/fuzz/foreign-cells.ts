// The cells of a sheet as they stand in its XML, found without our own reader.
import { fromCol } from "@borgar/fx";

/** A cell's element, where it belongs. */
export interface CellElement {
  readonly row: number;
  readonly column: number;
  readonly xml: string;
}

const tag = /<(?:\w+:)?(row|c)(?=[\s/>])([^<>]*?)(\/?)>/g;

/** Text of an XML part in whichever encoding its byte order mark says. */
export function partText(bytes: Uint8Array): string {
  const [first, second] = bytes;
  const encoding =
    first === 0xff && second === 0xfe ? "utf-16le" : first === 0xfe && second === 0xff ? "utf-16be" : "utf-8";
  return new TextDecoder(encoding).decode(bytes);
}

/** All `<c>` elements, in the order of the file. Whoever leaves addresses out counts on. */
export function cellElements(xml: string): CellElement[] {
  const cells: CellElement[] = [];
  const [start, end] = [xml.search(/<(?:\w+:)?sheetData[\s/>]/), xml.search(/<\/(?:\w+:)?sheetData\s*>/)];
  if (start < 0 || end < 0) return cells;
  const data = xml.slice(start, end);
  let [row, column] = [-1, -1];
  for (const found of data.matchAll(tag)) {
    const [whole, name, attributes = "", closed] = found;
    const r = /(?:^|\s)r\s*=\s*["']\s*([^"']*?)\s*["']/.exec(attributes)?.[1];
    if (name === "row") {
      row = r === undefined ? row + 1 : Number(r) - 1;
      column = -1;
      continue;
    }
    const [, letters, digits] = /^([A-Za-z]+)(\d+)$/.exec(r ?? "") ?? [];
    column = letters === undefined ? column + 1 : fromCol(letters);
    if (digits !== undefined) row = Number(digits) - 1;
    const after = found.index + whole.length;
    const close = /<\/(?:\w+:)?c\s*>/g;
    close.lastIndex = after;
    const to = closed === "/" ? after : (close.exec(data), close.lastIndex);
    cells.push({ row, column, xml: data.slice(found.index, to) });
  }
  return cells;
}

/** What stands around the cells. */
export const aroundCells = (xml: string): string =>
  xml.replace(/(<(?:\w+:)?sheetData[\s/>]).*(<\/(?:\w+:)?sheetData\s*>)/s, "$1$2");

/** The stored value: its type and its text. */
export function storedValue(xml: string): { readonly type: string; readonly text: string | undefined } {
  const type = /^<[^>]*\st\s*=\s*["'](\w+)["']/.exec(xml)?.[1] ?? "n";
  return { type, text: /<(?:\w+:)?v(?:\s[^>]*)?>([^<]*)</.exec(xml)?.[1] };
}
