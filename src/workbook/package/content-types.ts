import type { PackagePatch } from "./package-patch.js";
import type { PartSource } from "./package.js";
import { append, withPrefixOf, setAttribute, splice, removeElement, type Splice } from "../xml/xml-splice.js";
import { escapeAttribute } from "../xml/xml-text.js";
import { attributeOf, parseXml, type XmlElement } from "../xml/xml-tree.js";

const contentTypesPart = "[Content_Types].xml";

/**
 * Content type of a part: its own, or that of its file extension.
 *
 * @throws WorkbookError if the list of content types is missing or damaged
 */
export function typeOf(source: PartSource, part: string): string | undefined {
  const root = parseXml(contentTypesPart, source.text(contentTypesPart));
  return attributeOf(overrideOf(root, part) ?? defaultOf(root, part), "ContentType");
}

/** Declares the content type of a part, replacing that of an earlier part of the same name. */
export function declareType(patch: PackagePatch, part: string, type: string): void {
  if (typeOf(patch, part) === type) return;
  edit(patch, (root, xml) => {
    const override = overrideOf(root, part);
    if (override) return setAttribute(xml, override, "ContentType", type);
    const attributes = `PartName="/${escapeAttribute(part)}" ContentType="${escapeAttribute(type)}"`;
    return [append(root, `<${withPrefixOf(root, "Override")} ${attributes}/>`)];
  });
}

/** Declares a content type for all parts with a file extension, unless the extension has one. */
export function declareExtension(patch: PackagePatch, extension: string, type: string): void {
  edit(patch, (root) =>
    defaultOf(root, `.${extension}`)
      ? []
      : [append(root, `<${withPrefixOf(root, "Default")} Extension="${extension}" ContentType="${type}"/>`)],
  );
}

/** Removes a part's own content type. */
export function dropType(patch: PackagePatch, part: string): void {
  edit(patch, (root) => {
    const override = overrideOf(root, part);
    return override ? [removeElement(override)] : [];
  });
}

function edit(patch: PackagePatch, edits: (root: XmlElement, xml: string) => Splice[]): void {
  const xml = patch.text(contentTypesPart);
  const wanted = edits(parseXml(contentTypesPart, xml), xml);
  if (wanted.length > 0) patch.write(contentTypesPart, splice(xml, wanted));
}

function overrideOf(root: XmlElement, part: string): XmlElement | undefined {
  const name = `/${part}`.toLowerCase();
  return root.children.find(
    (e) => e.local === "Override" && attributeOf(e, "PartName")?.replaceAll("\\", "/").toLowerCase() === name,
  );
}

function defaultOf(root: XmlElement, part: string): XmlElement | undefined {
  const extension = part.slice(part.lastIndexOf(".") + 1).toLowerCase();
  return root.children.find(
    (e) => e.local === "Default" && attributeOf(e, "Extension")?.toLowerCase() === extension,
  );
}
