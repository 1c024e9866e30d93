import { cellAddress, parseAddress } from "../../cells/a1.js";
import { placeKey } from "../../cells/place.js";
import { escapeString } from "../xml/escaped-string.js";
import { append, withPrefixOf, setAttribute, splice, type Splice } from "../xml/xml-splice.js";
import { escapeText } from "../xml/xml-text.js";
import { attributeOf, childOf, childrenOf, parseXml, type XmlElement } from "../xml/xml-tree.js";
import { xmlDeclaration } from "../package/relationships.js";

/** A note on one cell. */
export interface NoteInPart {
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

const author = "Gylesheet";

/** A comments part without notes. */
export function emptyComments(namespace: string): string {
  return `${xmlDeclaration}<comments xmlns="${namespace}"><authors/><commentList/></comments>`;
}

/**
 * Cells with threads of comments: the part holds a placeholder for each, by an author "tc={…}".
 *
 * @throws WorkbookError if the part is damaged
 */
export function threadedCells(part: string, xml: string): Set<string> {
  const root = parseXml(part, xml);
  const isThread = childrenOf(childOf(root, "authors"), "author").map(({ text }) => text.startsWith("tc="));
  return new Set(
    childrenOf(childOf(root, "commentList"), "comment").flatMap((comment) => {
      const place = parseAddress(attributeOf(comment, "ref") ?? "");
      return place && isThread[Number(attributeOf(comment, "authorId"))] === true
        ? [placeKey(place.row, place.column)]
        : [];
    }),
  );
}

/**
 * Adds notes to a comments part. In a cell that has a note, the text is appended to it after a blank line; other notes
 * stay.
 *
 * @param notes at most one per cell
 * @throws WorkbookError if the part is damaged
 */
export function addComments(part: string, xml: string, notes: readonly NoteInPart[]): string {
  const root = parseXml(part, xml);
  const stored = new Map<string, XmlElement>();
  for (const comment of childrenOf(childOf(root, "commentList"), "comment")) {
    const place = parseAddress(attributeOf(comment, "ref") ?? "");
    if (place) stored.set(cellAddress(place.row, place.column), comment);
  }
  const edits: Splice[] = [];
  const authors = childrenOf(childOf(root, "authors"), "author");
  const known = authors.findIndex(({ text }) => text === author);
  const authorId = known < 0 ? authors.length : known;
  let added = "";
  for (const note of notes) {
    const ref = cellAddress(note.row, note.column);
    const comment = stored.get(ref);
    if (comment) edits.push(...extend(xml, comment, note.text));
    else added += newComment(root, ref, authorId, note.text);
  }
  if (added !== "") {
    const names = known < 0 ? element(withPrefixOf(root, "author"), "", author) : "";
    edits.push(
      ...appendTo(root, [
        ["authors", names],
        ["commentList", added],
      ]),
    );
  }
  return splice(xml, edits);
}

function newComment(root: XmlElement, ref: string, authorId: number, text: string): string {
  const t = element(withPrefixOf(root, "t"), keepSpace, written(text));
  return element(
    withPrefixOf(root, "comment"),
    ` ref="${ref}" authorId="${authorId}"`,
    element(withPrefixOf(root, "text"), "", t),
  );
}

function extend(xml: string, comment: XmlElement, text: string): Splice[] {
  const stored = childOf(comment, "text");
  const t = element(withPrefixOf(comment, "t"), keepSpace, written(text));
  if (!stored) return [append(comment, element(withPrefixOf(comment, "text"), "", t))];
  const pieces = [
    ...childrenOf(stored, "t"),
    ...childrenOf(stored, "r").flatMap((run) => childrenOf(run, "t")),
  ];
  const last = pieces.at(-1);
  if (!last) return [append(stored, t)];
  // Into the last piece, so that the text keeps its look.
  const blankLine = pieces.some((piece) => piece.text !== "") ? "\n\n" : "";
  return [...setAttribute(xml, last, "xml:space", "preserve"), append(last, blankLine + written(text))];
}

/** Adds content to lists below the root; a missing list is created. */
function appendTo(
  root: XmlElement,
  contents: readonly (readonly [list: string, content: string])[],
): Splice[] {
  const missing: string[] = [];
  const edits: Splice[] = [];
  for (const [local, content] of contents) {
    const list = childOf(root, local);
    if (!list) missing.push(element(withPrefixOf(root, local), "", content));
    else if (content !== "") edits.push(append(list, content));
  }
  return missing.length === 0 ? edits : [...edits, append(root, missing.join(""))];
}

const keepSpace = ' xml:space="preserve"';

function written(text: string): string {
  return escapeText(escapeString(text));
}

function element(name: string, attributes: string, content: string): string {
  return `<${name}${attributes}>${content}</${name}>`;
}
