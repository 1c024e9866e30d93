import { declareType, dropType } from "./content-types.js";
import { WorkbookError } from "./error.js";
import { contentTypes, customXmlNamespace, relationshipsFor } from "./names.js";
import type { PackagePatch } from "./package-patch.js";
import type { PartSource } from "./package.js";
import {
  addRelationship,
  dropRelationship,
  related,
  relationshipPart,
  xmlDeclaration,
} from "./relationships.js";
import { escapeAttribute, withoutByteOrderMark } from "./xml-text.js";
import { parseXml } from "./xml-tree.js";

/** A document of an add-in that travels inside the workbook. */
export interface CustomXml {
  readonly path: string;
  readonly xml: string;
}

/** One to add, or with a path one to put in place of the stored one. */
export interface NewCustomXml {
  readonly path?: string;
  readonly xml: string;
}

/**
 * Documents whose root element is in the namespace.
 *
 * @throws WorkbookError when one that mentions the namespace is not well-formed or declares a DTD
 */
export function readCustomXml(source: PartSource, workbookPart: string, namespace: string): CustomXml[] {
  const found: CustomXml[] = [];
  for (const { target } of related(source, workbookPart, "customXml")) {
    const xml = source.find(target) === undefined ? undefined : utf8Text(source, target);
    // Other add-ins keep other things here, some of them in UTF-16; those we need not understand.
    if (!xml?.includes(escapeAttribute(namespace))) continue;
    if (parseXml(target, xml).namespace === namespace) found.push({ path: target, xml });
  }
  return found;
}

function utf8Text(source: PartSource, part: string): string | undefined {
  try {
    return withoutByteOrderMark(source.text(part));
  } catch (e) {
    if (e instanceof WorkbookError) return undefined;
    throw e;
  }
}

/**
 * Adds a document to the workbook or replaces one.
 *
 * @throws WorkbookError when it is not well-formed, or the path is of no such document
 */
export function writeCustomXml(
  patch: PackagePatch,
  workbook: { readonly part: string; readonly namespace: string },
  { path, xml }: NewCustomXml,
): void {
  const root = parseXml(path ?? "the added XML", xml);
  if (path !== undefined) {
    const stored = related(patch, workbook.part, "customXml").find(({ target }) => target === path);
    if (!stored) throw new WorkbookError(`has no custom XML part ${path}`);
    patch.write(path, xml);
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

/** Takes a document out, with what belongs to it. @throws WorkbookError when the path is of no such document */
export function dropCustomXml(patch: PackagePatch, workbookPart: string, path: string): void {
  const stored = related(patch, workbookPart, "customXml").find(({ target }) => target === path);
  if (!stored) throw new WorkbookError(`has no custom XML part ${path}`);
  for (const { target } of related(patch, path, "customXmlProps")) remove(patch, target);
  dropRelationship(patch, workbookPart, stored.id);
  const rels = patch.find(relationshipPart(path));
  if (rels !== undefined) patch.remove(rels);
  remove(patch, path);
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
