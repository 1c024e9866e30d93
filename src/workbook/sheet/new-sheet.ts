import { areaText } from "../../cells/a1.js";
import { writeCell } from "./cell-write.js";
import { declareType } from "../package/content-types.js";
import { WorkbookError } from "../error.js";
import { unescapeString, escapeString } from "../xml/escaped-string.js";
import type { CellValue } from "../model.js";
import { contentTypes, isRelationshipNamespace, relationshipsFor } from "../package/names.js";
import type { PackagePatch } from "../package/package-patch.js";
import { addRelationship, folderOf, xmlDeclaration } from "../package/relationships.js";
import { append, withPrefixOf, splice } from "../xml/xml-splice.js";
import { escapeAttribute } from "../xml/xml-text.js";
import { attributeOf, childOf, childrenOf, parseXml, type XmlElement } from "../xml/xml-tree.js";

/** A sheet to add after all others. */
export interface NewSheet {
  /** The name wanted; a number is appended if it is taken. */
  readonly name: string;
  /** Formulas refer to it by this name, so that it cannot have another. */
  readonly isReferenced?: true;
  /** From the first row and column; null leaves a cell out. */
  readonly rows: readonly (readonly CellValue[])[];
  /** Widths of the first columns, in characters. */
  readonly widths?: readonly number[];
}

/** The longest sheet name that the file format allows, and the characters that it forbids. */
const LONGEST_NAME = 31;
const FORBIDDEN = /[[\]:*?/\\]/;

/**
 * Adds a sheet: its part, and everything that refers to it.
 *
 * @throws RangeError for a name that no sheet can have, or a value that no cell can hold
 * @throws WorkbookError if the workbook's own part is damaged, or the name of a referenced sheet is taken
 */
export function addSheet(
  patch: PackagePatch,
  workbook: { readonly part: string; readonly namespace: string },
  { name, isReferenced, rows, widths = [] }: NewSheet,
): void {
  const xml = patch.text(workbook.part);
  const root = parseXml(workbook.part, xml);
  const list = childOf(root, "sheets");
  if (!list) throw new WorkbookError(`is damaged: ${workbook.part} lists no sheets`);
  const listed = childrenOf(list, "sheet");
  const part = patch.freeName(`${folderOf(workbook.part)}worksheets/sheet#.xml`);
  patch.write(part, sheetXml(workbook.namespace, rows, widths));
  declareType(patch, part, contentTypes.worksheet);
  const base = relationshipsFor(workbook.namespace);
  const id = addRelationship(patch, workbook.part, `${base}/worksheet`, part);
  const free = freeSheetName(
    name,
    listed.map((sheet) => unescapeString(attributeOf(sheet, "name") ?? "")),
  );
  if (isReferenced && free !== name)
    throw new WorkbookError(
      `already has a sheet named "${name}", of a kind without cells. Rename that sheet, and try again`,
    );
  const sheetId = 1 + Math.max(0, ...listed.map((sheet) => Number(attributeOf(sheet, "sheetId") ?? 0)));
  const prefix = relationshipPrefix(root);
  const attributes =
    `name="${escapeAttribute(escapeString(free))}" sheetId="${sheetId}"` +
    (prefix === undefined ? ` xmlns:r="${base}"` : "") +
    ` ${prefix ?? "r"}:id="${id}"`;
  patch.write(workbook.part, splice(xml, [append(list, `<${withPrefixOf(list, "sheet")} ${attributes}/>`)]));
}

function relationshipPrefix(root: XmlElement): string | undefined {
  return root.attributes
    .find(({ name, value }) => name.startsWith("xmlns:") && isRelationshipNamespace(value))
    ?.name.slice("xmlns:".length);
}

/** A name that no sheet has yet, with a number appended if needed. Names of sheets ignore case. */
export function freeSheetName(wanted: string, taken: readonly string[]): string {
  if (wanted === "" || FORBIDDEN.test(wanted) || /^'|'$/.test(wanted))
    throw new RangeError(`"${wanted}" is no name for a sheet`);
  const used = new Set(taken.map((name) => name.toLowerCase()));
  for (let n = 1; ; n++) {
    const suffix = n === 1 ? "" : ` ${n}`;
    const name = wanted.slice(0, LONGEST_NAME - suffix.length) + suffix;
    if (!used.has(name.toLowerCase())) return name;
  }
}

function sheetXml(
  namespace: string,
  rows: readonly (readonly CellValue[])[],
  widths: readonly number[],
): string {
  const columns = widths
    .map((width, i) => `<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`)
    .join("");
  const data = rows
    .map((cells, row) => {
      const written = cells.map((value, column) =>
        value === null ? "" : writeCell({ row, column }, value, undefined, undefined, ""),
      );
      return `<row r="${row + 1}">${written.join("")}</row>`;
    })
    .join("");
  const right = Math.max(1, ...rows.map((cells) => cells.length)) - 1;
  const used = areaText({ top: 0, left: 0, bottom: Math.max(1, rows.length) - 1, right });
  return (
    `${xmlDeclaration}<worksheet xmlns="${namespace}"><dimension ref="${used}"/>` +
    `${columns === "" ? "" : `<cols>${columns}</cols>`}<sheetData>${data}</sheetData></worksheet>`
  );
}
