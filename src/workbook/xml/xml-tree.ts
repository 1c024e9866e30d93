import { WorkbookError } from "../error.js";
import type { Writable } from "./writable.js";
import type { OpenTag, XmlAttribute } from "./xml-events.js";
import { scanXml } from "./xml-scan.js";

/** An element with the offsets needed to edit its text in place. */
export interface XmlElement {
  /** As written, with its prefix. */
  readonly name: string;
  /** Without its prefix. */
  readonly local: string;
  /** A fragment declares no namespaces, so a prefix stands for its namespace there. */
  readonly namespace: string;
  readonly attributes: readonly XmlAttribute[];
  readonly children: readonly XmlElement[];
  /** Its own text, without that of its children. */
  readonly text: string;
  readonly selfClosing: boolean;
  readonly start: number;
  /** Offset after its opening tag. */
  readonly openEnd: number;
  /** Offset of its closing tag. */
  readonly closeStart: number;
  readonly end: number;
}

interface Open extends Writable<XmlElement> {
  children: Open[];
  prefixes: ReadonlyMap<string, string>;
}

/**
 * Parses a whole part, or one element of it, as a tree. For small parts; sheets are scanned instead.
 *
 * @throws WorkbookError as scanXml
 */
export function parseXml(part: string, xml: string): XmlElement {
  const open: Open[] = [];
  let root: Open | undefined;
  scanXml(part, xml, {
    open(tag) {
      const parent = open.at(-1);
      const element = startElement(tag, parent);
      parent?.children.push(element);
      root ??= element;
      open.push(element);
    },
    text(data) {
      const element = open.at(-1);
      if (element) element.text += data;
    },
    close(_name, start, end) {
      const element = open.pop();
      if (element) Object.assign(element, { closeStart: start, end });
    },
  });
  if (!root) throw new WorkbookError(`is damaged: ${part} is empty`);
  return root;
}

function startElement(tag: OpenTag, parent: Open | undefined): Open {
  const prefixes = declaredPrefixes(tag.attributes, parent?.prefixes ?? new Map<string, string>());
  return {
    name: tag.name,
    local: localName(tag.name),
    namespace: prefixes.get(prefixOf(tag.name)) ?? prefixOf(tag.name),
    prefixes,
    attributes: tag.attributes,
    children: [],
    text: "",
    selfClosing: tag.selfClosing,
    start: tag.start,
    openEnd: tag.end,
    closeStart: tag.end,
    end: tag.end,
  };
}

function declaredPrefixes(
  attributes: readonly XmlAttribute[],
  outer: ReadonlyMap<string, string>,
): ReadonlyMap<string, string> {
  const declared = attributes.filter(({ name }) => name === "xmlns" || name.startsWith("xmlns:"));
  if (declared.length === 0) return outer;
  const inner = new Map(outer);
  for (const { name, value } of declared) inner.set(name.slice(6), value);
  return inner;
}

/** "x" of "x:row", empty for "row". */
export function prefixOf(name: string): string {
  const colon = name.indexOf(":");
  return colon < 0 ? "" : name.slice(0, colon);
}

/** "row" of "x:row" and of "row". */
export function localName(name: string): string {
  return name.slice(name.indexOf(":") + 1);
}

/** Children with this local name in the namespace of their parent: a foreign extension may use the same names. */
export function childrenOf(parent: XmlElement | undefined, local: string): readonly XmlElement[] {
  return (
    parent?.children.filter((child) => child.local === local && child.namespace === parent.namespace) ?? []
  );
}

/** First such child. */
export function childOf(parent: XmlElement | undefined, local: string): XmlElement | undefined {
  return childrenOf(parent, local)[0];
}

/** Value of an attribute by its name as written. */
export function attributeOf(element: XmlElement | undefined, name: string): string | undefined {
  return element?.attributes.find((attribute) => attribute.name === name)?.value;
}

/** Whether an xsd:boolean is true; it allows two forms. */
export function isTrue(value: string | undefined): boolean {
  return value === "1" || value === "true";
}
