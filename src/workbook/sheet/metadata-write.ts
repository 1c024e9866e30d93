import { declareType } from "../package/content-types.js";
import { dynamicArrayType, dynamicIndexes, futureMetadata, isDynamic } from "./metadata.js";
import { contentTypes, dynamicArrayNamespace, relationshipsFor } from "../package/names.js";
import type { PackagePatch } from "../package/package-patch.js";
import { addRelationship, folderOf, related, xmlDeclaration } from "../package/relationships.js";
import { append, withPrefixOf, setAttribute, splice, type Splice } from "../xml/xml-splice.js";
import { attributeOf, childOf, childrenOf, parseXml, type XmlElement } from "../xml/xml-tree.js";

/**
 * The "cm" value that marks a dynamic array; everything that it refers to is added to the workbook if missing.
 *
 * @throws WorkbookError if the stored metadata is damaged
 */
export function ensureDynamicMetadata(
  patch: PackagePatch,
  workbook: { part: string; namespace: string },
): number {
  const part = related(patch, workbook.part, "sheetMetadata")[0]?.target ?? addPart(patch, workbook);
  const stored = dynamicIndexes(parseXml(part, patch.text(part)))[0];
  if (stored !== undefined) return stored;
  for (const step of [addType, addProperties, addCell]) {
    const xml = patch.text(part);
    patch.write(part, splice(xml, step(xml, parseXml(part, xml))));
  }
  return childrenOf(childOf(parseXml(part, patch.text(part)), "cellMetadata"), "bk").length;
}

function addPart(patch: PackagePatch, { part, namespace }: { part: string; namespace: string }): string {
  const name = patch.find(`${folderOf(part)}metadata.xml`) === undefined ? "metadata.xml" : "metadata#.xml";
  const added = patch.freeName(folderOf(part) + name);
  patch.write(added, `${xmlDeclaration}<metadata xmlns="${namespace}"/>`);
  declareType(patch, added, contentTypes.metadata);
  addRelationship(patch, part, `${relationshipsFor(namespace)}/sheetMetadata`, added);
  return added;
}

/** As written by Excel: how the mark behaves when a cell is copied, cleared and so on. */
const typeAttributes =
  `name="${dynamicArrayType}" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" ` +
  'splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"';

function addType(xml: string, root: XmlElement): Splice[] {
  if (typeIndex(root) >= 0) return [];
  return addTo(xml, root, "metadataTypes", [], `<${withPrefixOf(root, "metadataType")} ${typeAttributes}/>`);
}

function addProperties(xml: string, root: XmlElement): Splice[] {
  const list = futureMetadata(root);
  if (list && childrenOf(list, "bk").some(isDynamic)) return [];
  const name = (local: string) => withPrefixOf(root, local);
  const properties = `<xda:dynamicArrayProperties xmlns:xda="${dynamicArrayNamespace}" fDynamic="1" fCollapsed="0"/>`;
  const ext = `<${name("ext")} uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}">${properties}</${name("ext")}>`;
  const bk = `<${name("bk")}><${name("extLst")}>${ext}</${name("extLst")}></${name("bk")}>`;
  if (list) return [append(list, bk), ...count(xml, list)];
  const added = `<${name("futureMetadata")} name="${dynamicArrayType}" count="1">${bk}</${name("futureMetadata")}>`;
  return [insertAfter(root, ["metadataTypes", "metadataStrings", "mdxMetadata", "futureMetadata"], added)];
}

function addCell(xml: string, root: XmlElement): Splice[] {
  const v = childrenOf(futureMetadata(root), "bk").findIndex(isDynamic);
  const bk = `<${withPrefixOf(root, "bk")}><${withPrefixOf(root, "rc")} t="${typeIndex(root) + 1}" v="${v}"/></${withPrefixOf(root, "bk")}>`;
  return addTo(
    xml,
    root,
    "cellMetadata",
    ["metadataTypes", "metadataStrings", "mdxMetadata", "futureMetadata"],
    bk,
  );
}

function typeIndex(root: XmlElement): number {
  return childrenOf(childOf(root, "metadataTypes"), "metadataType").findIndex(
    (type) => attributeOf(type, "name") === dynamicArrayType,
  );
}

/** Adds an item to a counted list; a missing list is created after the elements that must precede it. */
function addTo(
  xml: string,
  root: XmlElement,
  local: string,
  earlier: readonly string[],
  item: string,
): Splice[] {
  const list = childOf(root, local);
  if (list) return [append(list, item), ...count(xml, list)];
  const name = withPrefixOf(root, local);
  return [insertAfter(root, earlier, `<${name} count="1">${item}</${name}>`)];
}

function count(xml: string, list: XmlElement): Splice[] {
  const stored = attributeOf(list, "count");
  return stored === undefined ? [] : setAttribute(xml, list, "count", String(list.children.length + 1));
}

function insertAfter(root: XmlElement, earlier: readonly string[], content: string): Splice {
  if (root.selfClosing) return append(root, content);
  const last = root.children.filter(({ local }) => earlier.includes(local)).at(-1);
  const at = last?.end ?? root.openEnd;
  return { start: at, end: at, text: content };
}
