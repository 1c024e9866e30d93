import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import type { CellValue } from "../../src/workbook/model.js";

/**
 * What LibreOffice makes of formulas beside the cells of a sheet named Data. The formulas must be written as in files,
 * with the prefixes of newer functions.
 */
export async function libreOfficeResults(
  formulas: readonly string[],
  data: Readonly<Record<string, number | string>>,
): Promise<CellValue[]> {
  const folder = await mkdtemp(join(tmpdir(), "second-opinion-"));
  try {
    const book = join(folder, "in.xlsx");
    await writeFile(book, zipSync(parts(formulas, data)));
    const profile = `-env:UserInstallation=file://${folder}/profile`;
    const out = join(folder, "out");
    await promisify(execFile)("soffice", [
      "--headless",
      profile,
      "--convert-to",
      "xlsx",
      "--outdir",
      out,
      book,
    ]);
    return read(new Uint8Array(await readFile(join(out, "in.xlsx"))), formulas.length);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const packageRelations = "http://schemas.openxmlformats.org/package/2006/relationships";
const officeRelations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const types = "application/vnd.openxmlformats-officedocument.spreadsheetml";

function parts(
  formulas: readonly string[],
  data: Readonly<Record<string, number | string>>,
): Record<string, Uint8Array> {
  const rows = new Map<number, string>();
  for (const [address, value] of Object.entries(data)) {
    const row = Number(/\d+/.exec(address)?.[0]);
    const cell =
      typeof value === "number"
        ? `<c r="${address}"><v>${value}</v></c>`
        : `<c r="${address}" t="inlineStr"><is><t>${escaped(value)}</t></is></c>`;
    rows.set(row, (rows.get(row) ?? "") + cell);
  }
  const dataRows = [...rows]
    .sort(([a], [b]) => a - b)
    .map(([row, cells]) => `<row r="${row}">${cells}</row>`);
  const formulaRows = formulas.map(
    (text, i) => `<row r="${i + 1}"><c r="A${i + 1}"><f>${escaped(text)}</f></c></row>`,
  );
  const sheet = (content: string[]): string =>
    `<worksheet xmlns="${main}"><sheetData>${content.join("")}</sheetData></worksheet>`;
  const files = {
    "[Content_Types].xml":
      `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
      `<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
      `<Default Extension="xml" ContentType="${types}.worksheet+xml"/>` +
      `<Override PartName="/xl/workbook.xml" ContentType="${types}.sheet.main+xml"/></Types>`,
    "_rels/.rels": `<Relationships xmlns="${packageRelations}"><Relationship Id="r1" Type="${officeRelations}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<workbook xmlns="${main}" xmlns:r="${officeRelations}"><sheets><sheet name="Formulas" sheetId="1" r:id="r1"/><sheet name="Data" sheetId="2" r:id="r2"/></sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${packageRelations}"><Relationship Id="r1" Type="${officeRelations}/worksheet" Target="sheet1.xml"/><Relationship Id="r2" Type="${officeRelations}/worksheet" Target="sheet2.xml"/></Relationships>`,
    "xl/sheet1.xml": sheet(formulaRows),
    "xl/sheet2.xml": sheet(dataRows),
  };
  return Object.fromEntries(
    Object.entries(files).map(([name, content]) => [name, strToU8(`<?xml version="1.0"?>${content}`)]),
  );
}

function read(file: Uint8Array, count: number): CellValue[] {
  const content = unzipSync(file);
  const part = (name: string): string => strFromU8(content[name] ?? new Uint8Array());
  const strings = [...part("xl/sharedStrings.xml").matchAll(/<si>(.*?)<\/si>/gs)].map(([, item = ""]) =>
    unescaped([...item.matchAll(/<t[^>]*>(.*?)<\/t>/gs)].map(([, run = ""]) => run).join("")),
  );
  const values = new Map<number, CellValue>();
  for (const [, row, attributes = "", inner = ""] of part("xl/worksheets/sheet1.xml").matchAll(
    /<c r="A(\d+)"([^>]*)>(.*?)<\/c>/gs,
  )) {
    const raw = /<v>(.*?)<\/v>/s.exec(inner)?.[1];
    const type = /t="(\w+)"/.exec(attributes)?.[1] ?? "n";
    if (raw !== undefined) values.set(Number(row), valueOf(type, raw, strings));
  }
  return Array.from({ length: count }, (_, i) => values.get(i + 1) ?? null);
}

function valueOf(type: string, raw: string, strings: readonly string[]): CellValue {
  if (type === "s") return strings[Number(raw)] ?? "";
  if (type === "b") return raw === "1";
  if (type === "e") return { error: raw };
  return type === "n" ? Number(raw) : unescaped(raw);
}

function escaped(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}

function unescaped(text: string): string {
  return text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&apos;", "'")
    .replaceAll("&amp;", "&");
}
