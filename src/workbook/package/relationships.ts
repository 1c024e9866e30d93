import { contentTypes, isOfficeType } from "./names.js";
import { declareType } from "./content-types.js";
import type { PackagePatch } from "./package-patch.js";
import type { PartSource } from "./package.js";
import { append, withPrefixOf, splice, removeElement } from "../xml/xml-splice.js";
import { escapeAttribute } from "../xml/xml-text.js";
import { attributeOf, parseXml } from "../xml/xml-tree.js";

/** A relationship from one part to another part of the package. */
export interface Relationship {
  readonly id: string;
  readonly type: string;
  /** Name of the part as spelled in the file; if there is no such part, as in the target. */
  readonly target: string;
}

const relationshipsNamespace = "http://schemas.openxmlformats.org/package/2006/relationships";

/**
 * Relationships of a part, or of the package itself for "". External ones are left out.
 *
 * @throws WorkbookError if the relationship part is damaged
 */
export function readRelationships(source: PartSource, part: string): Relationship[] {
  const name = source.find(relationshipPart(part));
  if (name === undefined) return [];
  return parseXml(name, source.text(name))
    .children.filter((e) => e.local === "Relationship" && attributeOf(e, "TargetMode") !== "External")
    .map((element) => ({
      id: attributeOf(element, "Id") ?? "",
      type: attributeOf(element, "Type") ?? "",
      target: resolve(source, part, attributeOf(element, "Target") ?? ""),
    }));
}

/** Those of the office type that ends with this word. */
export function related(source: PartSource, part: string, kind: string): Relationship[] {
  return readRelationships(source, part).filter(({ type }) => isOfficeType(type, kind));
}

/** Adds a relationship, and the relationship part if there is none yet. Returns the new id. */
export function addRelationship(patch: PackagePatch, part: string, type: string, target: string): string {
  const name = relationshipPart(part);
  if (patch.find(name) === undefined) {
    patch.write(name, `${xmlDeclaration}<Relationships xmlns="${relationshipsNamespace}"/>`);
    declareType(patch, name, contentTypes.relationships);
  }
  const xml = patch.text(name);
  const root = parseXml(name, xml);
  const taken = new Set(root.children.map((child) => attributeOf(child, "Id")));
  let n = 1;
  while (taken.has(`rId${n}`)) n++;
  const id = `rId${n}`;
  const attributes = `Id="${id}" Type="${type}" Target="${escapeAttribute(relative(part, target))}"`;
  patch.write(name, splice(xml, [append(root, `<${withPrefixOf(root, "Relationship")} ${attributes}/>`)]));
  return id;
}

/** Removes a relationship. */
export function dropRelationship(patch: PackagePatch, part: string, id: string): void {
  const name = relationshipPart(part);
  const xml = patch.text(name);
  const dropped = parseXml(name, xml).children.filter((child) => attributeOf(child, "Id") === id);
  patch.write(name, splice(xml, dropped.map(removeElement)));
}

/** Folder of a part with its closing "/", empty at the top. */
export function folderOf(part: string): string {
  return part.slice(0, part.lastIndexOf("/") + 1);
}

export const xmlDeclaration = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

/** The part that holds the relationships of a part. */
export function relationshipPart(part: string): string {
  const folder = folderOf(part);
  return `${folder}_rels/${part.slice(folder.length)}.rels`;
}

function resolve(source: PartSource, part: string, target: string): string {
  // Some programs write Windows paths, as in the zip directory.
  const path = target.replaceAll("\\", "/");
  const name = normalise(path.startsWith("/") ? path : folderOf(part) + path);
  return source.find(name) ?? source.find(unescapeUri(name)) ?? name;
}

function normalise(path: string): string {
  const steps: string[] = [];
  for (const step of path.split("/")) {
    if (step === "..") steps.pop();
    else if (step !== "" && step !== ".") steps.push(step);
  }
  return steps.join("/");
}

function unescapeUri(name: string): string {
  try {
    return decodeURI(name);
  } catch {
    return name; // a literal "%"
  }
}

function relative(part: string, target: string): string {
  const from = folderOf(part).split("/").slice(0, -1);
  const to = target.split("/");
  let shared = 0;
  while (shared < from.length && from[shared] === to[shared]) shared++;
  return "../".repeat(from.length - shared) + to.slice(shared).join("/");
}
