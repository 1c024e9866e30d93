import { escapeAttribute, isXmlSpace } from "./xml-text.js";
import type { XmlAttribute } from "./xml-events.js";
import { prefixOf, type XmlElement } from "./xml-tree.js";

/** Text that replaces the characters from start to end; an insertion if start and end are equal. */
export interface Splice {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * The text with all edits applied. Edits must not overlap; insertions at one place keep their order and come before a
 * replacement that starts there.
 *
 * @throws RangeError if edits overlap: the result would be damaged
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

/** The same edits for a longer text that contains this one from the offset on. */
export function shift(edits: readonly Splice[], offset: number): Splice[] {
  return edits.map(({ start, end, text }) => ({ start: start + offset, end: end + offset, text }));
}

/** Inserts content before an element's closing tag; a self-closing element is opened for it. */
export function append(element: XmlElement, content: string): Splice {
  if (!element.selfClosing) return { start: element.closeStart, end: element.closeStart, text: content };
  return { start: element.openEnd - 2, end: element.openEnd, text: `>${content}</${element.name}>` };
}

/** Removes an element. */
export function removeElement(element: XmlElement): Splice {
  return { start: element.start, end: element.end, text: "" };
}

/**
 * Sets an attribute, or removes it if the value is undefined; the others keep their order and spelling.
 *
 * @param xml the text that the element was read from
 * @returns no edit if it already has that value
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

/** A name with the same prefix as the neighbouring element. */
export function withPrefixOf(neighbour: XmlElement, local: string): string {
  const prefix = prefixOf(neighbour.name);
  return prefix === "" ? local : `${prefix}:${local}`;
}
