import { declareType, dropType, typeOf } from "./content-types.js";
import { WorkbookError } from "../error.js";
import { contentTypes, customXmlNamespace, relationshipsFor } from "./names.js";
import type { PackagePatch } from "./package-patch.js";
import type { PartSource } from "./package.js";
import {
  addRelationship,
  dropRelationship,
  related,
  relationshipPart,
  xmlDeclaration,
  type Relationship,
} from "./relationships.js";
import { mayDeclare } from "./text-encoding.js";
import { escapeAttribute, withoutByteOrderMark } from "../xml/xml-text.js";
import { parseXml } from "../xml/xml-tree.js";

/** A document of an add-in that travels inside the workbook. */
export interface CustomXml {
  readonly path: string;
  readonly xml: string;
}

/** A document to add or, with a path, to replace the stored one. */
export interface NewCustomXml {
  readonly path?: string;
  readonly xml: string;
}

/** What a document may belong to: the workbook, as in Excel, or the package itself, as in files of LibreOffice. */
const holders = (workbookPart: string): readonly string[] => [workbookPart, ""];

interface Held extends Relationship {
  /** The part that owns the relationship, or "" for the package. */
  readonly by: string;
}

const heldDocuments = (source: PartSource, workbookPart: string): Held[] =>
  holders(workbookPart).flatMap((by) =>
    related(source, by, "customXml").map((relationship) => ({ ...relationship, by })),
  );

/**
 * Documents whose root element is in the namespace: those to which the workbook or the package refers. If there are
 * none, any that a program has kept without its relationship.
 *
 * @throws WorkbookError if one that mentions the namespace is not well-formed or declares a DTD
 */
export function readCustomXml(source: PartSource, workbookPart: string, namespace: string): CustomXml[] {
  const held = new Set(heldDocuments(source, workbookPart).map(({ target }) => target));
  const found = documentsAmong(source, held, namespace);
  return found.length > 0 ? found : documentsAmong(source, looseDocuments(source), namespace);
}

function documentsAmong(source: PartSource, parts: Iterable<string>, namespace: string): CustomXml[] {
  const found: CustomXml[] = [];
  for (const path of parts) {
    const xml = source.find(path) === undefined ? undefined : readableText(source, path);
    // Other add-ins keep their own documents here, some in encodings that we do not read and need not understand.
    if (!xml?.includes(escapeAttribute(namespace))) continue;
    if (parseXml(path, xml).namespace === namespace) found.push({ path, xml });
  }
  return found;
}

/** Parts that could be such documents, by their place or their type. */
const looseDocuments = (source: PartSource): string[] =>
  source
    .names()
    .filter(
      (name) =>
        /(^|\/)customXml\/[^/]+\.xml$/i.test(name) ||
        (/\.xml$/i.test(name) && typeOf(source, name) === contentTypes.xml),
    );

function readableText(source: PartSource, part: string): string | undefined {
  try {
    return withoutByteOrderMark(source.text(part));
  } catch (e) {
    if (e instanceof WorkbookError) return undefined;
    throw e;
  }
}

/**
 * Adds a document to the workbook, or replaces one.
 *
 * @throws WorkbookError if it is not well-formed, or the path is not that of such a document
 */
export function writeCustomXml(
  patch: PackagePatch,
  workbook: { readonly part: string; readonly namespace: string },
  { path, xml }: NewCustomXml,
): void {
  const root = parseXml(path ?? "the added XML", xml);
  if (!mayDeclare(xml, "utf-8")) throw new WorkbookError(`takes ${path ?? "added XML"} in UTF-8 only`);
  if (path !== undefined) {
    expectDocument(patch, workbook.part, path);
    patch.write(path, xml, "utf-8");
    return;
  }
  const base = relationshipsFor(workbook.namespace);
  const item = patch.freeName("customXml/item#.xml");
  patch.write(item, xml);
  declareType(patch, item, contentTypes.xml);
  addRelationship(patch, workbook.part, `${base}/customXml`, item);
  const properties = patch.freeName("customXml/itemProps#.xml");
  patch.write(properties, propertiesOf(root.namespace));
  declareType(patch, properties, contentTypes.customXmlProperties);
  addRelationship(patch, item, `${base}/customXmlProps`, properties);
}

/** Removes a document and what belongs to it. @throws WorkbookError if the path is not that of such a document */
export function dropCustomXml(patch: PackagePatch, workbookPart: string, path: string): void {
  expectDocument(patch, workbookPart, path);
  for (const { target } of related(patch, path, "customXmlProps")) remove(patch, target);
  for (const { target, id, by } of heldDocuments(patch, workbookPart))
    if (target === path) dropRelationship(patch, by, id);
  const rels = patch.find(relationshipPart(path));
  if (rels !== undefined) patch.remove(rels);
  remove(patch, path);
}

function expectDocument(source: PartSource, workbookPart: string, path: string): void {
  const isHeld = heldDocuments(source, workbookPart).some(({ target }) => target === path);
  if (!isHeld && !looseDocuments(source).includes(path))
    throw new WorkbookError(`has no custom XML part ${path}`);
}

function remove(patch: PackagePatch, part: string): void {
  dropType(patch, part);
  patch.remove(part);
}

function propertiesOf(namespace: string): string {
  const id = `{${crypto.randomUUID().toUpperCase()}}`;
  const refs = `<ds:schemaRefs><ds:schemaRef ds:uri="${escapeAttribute(namespace)}"/></ds:schemaRefs>`;
  return `${xmlDeclaration}<ds:datastoreItem ds:itemID="${id}" xmlns:ds="${customXmlNamespace}">${refs}</ds:datastoreItem>`;
}
