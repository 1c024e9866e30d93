import { escapeAttribute, isXmlSpace } from "./xml-text.js";
import type { XmlAttribute } from "./xml-events.js";
import { prefixOf, type XmlElement } from "./xml-tree.js";

/** Text to put in place of the characters from start to end; an insertion when they are equal. */
export interface Splice {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * The text with all edits applied. Edits must not overlap; insertions at one place keep their order and come before a
 * replacement that starts there.
 *
 * @throws RangeError when edits overlap: the result would be damaged
 */
export function splice(xml: string, edits: readonly Splice[]): string {
  const ordered = [...edits].sort((a, b) => a.start - b.start || a.end - b.end);
  const pieces: string[] = [];
  let from = 0;
  for (const { start, end, text } of ordered) {
    if (start < from) throw new RangeError(`edits overlap at ${start}`);
    pieces.push(xml.slice(from, start), text);
    from = end;
  }
  pieces.push(xml.slice(from));
  return pieces.join("");
}

/** The same edits for a text in which this one begins at the offset. */
export function shift(edits: readonly Splice[], offset: number): Splice[] {
  return edits.map(({ start, end, text }) => ({ start: start + offset, end: end + offset, text }));
}

/** Adds content before an element's closing tag; opens a self-closing element for it. */
export function append(element: XmlElement, content: string): Splice {
  if (!element.selfClosing) return { start: element.closeStart, end: element.closeStart, text: content };
  return { start: element.openEnd - 2, end: element.openEnd, text: `>${content}</${element.name}>` };
}

/** Takes an element out. */
export function without(element: XmlElement): Splice {
  return { start: element.start, end: element.end, text: "" };
}

/**
 * Sets an attribute, or takes it out with undefined; the others keep their place and spelling.
 *
 * @param xml the text that the element was read from
 * @returns no edit when it already has that value
 */
export function setAttribute(
  xml: string,
  element: XmlElement,
  name: string,
  value: string | undefined,
): Splice[] {
  const stored = element.attributes.find((attribute) => attribute.name === name);
  if (stored?.value === value) return [];
  if (value === undefined) return stored ? [withoutAttribute(xml, stored)] : [];
  const text = escapeAttribute(value);
  if (stored) return [{ start: stored.valueStart, end: stored.valueEnd, text }];
  const after = element.attributes.at(-1)?.end ?? element.start + 1 + element.name.length;
  return [{ start: after, end: after, text: ` ${name}="${text}"` }];
}

function withoutAttribute(xml: string, { start, end }: XmlAttribute): Splice {
  let from = start;
  while (isXmlSpace(xml.charCodeAt(from - 1))) from--;
  return { start: from, end, text: "" };
}

/** A name with the prefix that the neighbouring element uses. */
export function besides(neighbour: XmlElement, local: string): string {
  const prefix = prefixOf(neighbour.name);
  return prefix === "" ? local : `${prefix}:${local}`;
}
