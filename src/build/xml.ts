import { escapeAttribute, escapeText } from "../workbook/xml/xml-text.js";

export interface XmlNode {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** Elements, or only text. */
  readonly content: readonly XmlNode[] | string;
}

/** An element with attributes. */
export function xmlElement(
  name: string,
  attributes: XmlNode["attributes"],
  content: XmlNode["content"] = [],
): XmlNode {
  return { name, attributes, content };
}

/** An element without attributes. */
export function plainElement(name: string, content: XmlNode["content"]): XmlNode {
  return xmlElement(name, {}, content);
}

/** An XML document, indented by two spaces per level. */
export function xmlDocument(root: XmlNode): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n${written(root, "")}`;
}

function written({ name, attributes, content }: XmlNode, indent: string): string {
  const pairs = Object.entries(attributes).map(([key, value]) => ` ${key}="${escapeAttribute(value)}"`);
  const start = `${indent}<${name}${pairs.join("")}`;
  if (content.length === 0) return `${start}/>\n`;
  if (typeof content === "string") return `${start}>${escapeText(content)}</${name}>\n`;
  return `${start}>\n${content.map((node) => written(node, `${indent}  `)).join("")}${indent}</${name}>\n`;
}
