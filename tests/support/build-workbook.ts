import { strToU8, unzipSync, zipSync } from "fflate";

// Small invented workbooks, written as XML by hand, so that tests say exactly what is in the file.

const office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const packaging = "http://schemas.openxmlformats.org/package/2006";

export const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
export const relationshipNamespace = office;
export const workbookType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml";

/** Parts by name, in file order. */
export type Parts = Record<string, string | Uint8Array>;

/** A sheet's part: rows of <c> elements, with what comes before and behind sheetData. */
export function sheetXml(rows: string, before = "", behind = ""): string {
  return `<worksheet xmlns="${main}" xmlns:r="${office}">${before}<sheetData>${rows}</sheetData>${behind}</worksheet>`;
}

export interface Relation {
  readonly id: string;
  /** Last word of an office type, or a whole type. */
  readonly kind: string;
  readonly target: string;
}

export function relationshipsXml(...relations: Relation[]): string {
  const items = relations.map(({ id, kind, target }) => {
    const type = kind.includes("/") ? kind : `${office}/${kind}`;
    return `<Relationship Id="${id}" Type="${type}" Target="${target}"/>`;
  });
  return `<Relationships xmlns="${packaging}/relationships">${items.join("")}</Relationships>`;
}

export function contentTypesXml(mainType: string, overrides: Readonly<Record<string, string>> = {}): string {
  const all = { "xl/workbook.xml": mainType, ...overrides };
  const items = Object.entries(all).map(
    ([part, type]) => `<Override PartName="/${part}" ContentType="${type}"/>`,
  );
  return (
    `<Types xmlns="${packaging}/content-types"><Default Extension="xml" ContentType="application/xml"/>` +
    `<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
    `${items.join("")}</Types>`
  );
}

export interface Book {
  /** Sheets by name: their whole part. Held in xl/worksheets/sheet1.xml and so on. */
  readonly sheets: Readonly<Record<string, string>>;
  /** Elements of the workbook part behind <sheets>. */
  readonly behindSheets?: string;
  readonly beforeSheets?: string;
  /** Further relationships of the workbook part. */
  readonly relations?: readonly Relation[];
  readonly overrides?: Readonly<Record<string, string>>;
  /** Further parts; one with a name of ours replaces it. */
  readonly parts?: Parts;
}

/** Parts of a workbook, ready to be zipped or spoiled. */
export function bookParts(book: Book): Parts {
  const names = Object.keys(book.sheets);
  const listed = names
    .map((name, i) => `<sheet name="${name}" sheetId="${i + 1}" r:id="s${i + 1}"/>`)
    .join("");
  const sheetParts = names.map(
    (name, i) => [`xl/worksheets/sheet${i + 1}.xml`, book.sheets[name] ?? ""] as const,
  );
  const relations = names.map((_, i) => ({
    id: `s${i + 1}`,
    kind: "worksheet",
    target: `worksheets/sheet${i + 1}.xml`,
  }));
  return {
    "[Content_Types].xml": contentTypesXml(workbookType, book.overrides),
    "_rels/.rels": relationshipsXml({ id: "r1", kind: "officeDocument", target: "xl/workbook.xml" }),
    "xl/workbook.xml":
      `<workbook xmlns="${main}" xmlns:r="${office}">${book.beforeSheets ?? ""}` +
      `<sheets>${listed}</sheets>${book.behindSheets ?? ""}</workbook>`,
    "xl/_rels/workbook.xml.rels": relationshipsXml(...relations, ...(book.relations ?? [])),
    ...Object.fromEntries(sheetParts),
    ...book.parts,
  };
}

export function zipParts(parts: Parts): Uint8Array {
  const files = Object.entries(parts).map(([name, data]) => [
    name,
    typeof data === "string" ? strToU8(data) : data,
  ]);
  return zipSync(Object.fromEntries(files) as Record<string, Uint8Array>, {
    mtime: new Date(2026, 0, 5, 8, 30),
  });
}

export function buildBook(book: Book): Uint8Array {
  return zipParts(bookParts(book));
}

/** A workbook with one sheet named "S" and these rows. */
export function bookOf(rows: string, more: Omit<Book, "sheets"> = {}): Uint8Array {
  return buildBook({ sheets: { S: sheetXml(rows) }, ...more });
}

/** Parts of a zip file as text, in directory order. */
export function partTexts(bytes: Uint8Array): Map<string, string> {
  const decoder = new TextDecoder("utf-8", { ignoreBOM: true });
  return new Map(Object.entries(unzipSync(bytes)).map(([name, data]) => [name, decoder.decode(data)]));
}

/** Text of one part. */
export function partText(bytes: Uint8Array, name: string): string {
  const text = partTexts(bytes).get(name);
  if (text === undefined) throw new Error(`no part ${name}`);
  return text;
}
