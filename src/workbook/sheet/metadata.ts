import { dynamicArrayNamespace } from "../package/names.js";
import type { PartSource } from "../package/package.js";
import { related } from "../package/relationships.js";
import { attributeOf, childOf, childrenOf, isTrue, parseXml, type XmlElement } from "../xml/xml-tree.js";

// A cell's "cm" counts from 1 into cellMetadata. Each entry there names a type (from 1 into metadataTypes) and an entry
// (from 0 into the futureMetadata of that type's name), whose extension says whether an array formula is dynamic.

export const dynamicArrayType = "XLDAPR";

/**
 * Values of "cm" that make an array formula spill.
 *
 * @throws WorkbookError if the metadata part is damaged
 */
export function readDynamicMetadata(source: PartSource, workbookPart: string): ReadonlySet<number> {
  const part = related(source, workbookPart, "sheetMetadata")[0]?.target;
  return new Set(part === undefined ? [] : dynamicIndexes(parseXml(part, source.text(part))));
}

/** The same from the part's root, in ascending order. */
export function dynamicIndexes(root: XmlElement): number[] {
  const typeNumber = childrenOf(childOf(root, "metadataTypes"), "metadataType").findIndex(
    (type) => attributeOf(type, "name") === dynamicArrayType,
  );
  const entries = childrenOf(futureMetadata(root), "bk").map(isDynamic);
  return childrenOf(childOf(root, "cellMetadata"), "bk").flatMap((bk, index) => {
    const dynamic = childrenOf(bk, "rc").some(
      (rc) =>
        Number(attributeOf(rc, "t")) === typeNumber + 1 && entries[Number(attributeOf(rc, "v"))] === true,
    );
    return dynamic && typeNumber >= 0 ? [index + 1] : [];
  });
}

/** The list of dynamic array properties. */
export function futureMetadata(root: XmlElement): XmlElement | undefined {
  return childrenOf(root, "futureMetadata").find((list) => attributeOf(list, "name") === dynamicArrayType);
}

/** Whether an entry of that list marks a dynamic array. */
export function isDynamic(bk: XmlElement): boolean {
  return childrenOf(childOf(bk, "extLst"), "ext").some((ext) =>
    ext.children.some(
      (properties) =>
        properties.local === "dynamicArrayProperties" &&
        properties.namespace === dynamicArrayNamespace &&
        isTrue(attributeOf(properties, "fDynamic")),
    ),
  );
}
