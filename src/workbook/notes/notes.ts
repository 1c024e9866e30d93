import { cellAddress } from "../../cells/a1.js";
import { columnLimit } from "../../cells/limits.js";
import { placeKey } from "../../cells/place.js";
import { checkPlace } from "../sheet/check-place.js";
import { addComments, emptyComments, threadedCells, type NoteInPart } from "./comments-part.js";
import { declareExtension, declareType } from "../package/content-types.js";
import { contentTypes, relationshipsFor, vmlDrawingRelationship } from "../package/names.js";
import { addNoteShapes, boxLineLength, emptyDrawing } from "./note-shapes.js";
import type { PackagePatch } from "../package/package-patch.js";
import { addRelationship, folderOf, readRelationships, related } from "../package/relationships.js";
import type { SheetChild, SheetLayout } from "../sheet/sheet-layout.js";
import type { Splice } from "../xml/xml-splice.js";
import { blocksOf, freeBlock } from "./shape-ids.js";
import { localName, parseXml, type XmlElement } from "../xml/xml-tree.js";

/** Elements of a sheet that follow legacyDrawing; AlternateContent holds controls or objects, which follow it too. */
const behindDrawing = new Set([
  "legacyDrawingHF",
  "drawingHF",
  "picture",
  "oleObjects",
  "controls",
  "webPublishItems",
  "tableParts",
  "extLst",
  "AlternateContent",
]);

/**
 * Adds notes to a sheet: comments part, drawing part and everything that refers to them.
 *
 * @param sheetNumber from 1
 * @returns edits for the sheet's own part
 * @throws WorkbookError for a cell outside the sheet, or if a part with stored notes is damaged
 */
export function addNotes(
  patch: PackagePatch,
  workbookPart: string,
  layout: SheetLayout,
  notes: readonly NoteInPart[],
  sheetNumber: number,
): Splice[] {
  if (notes.length === 0) return [];
  const folder = folderOf(workbookPart);
  const stored = related(patch, layout.part, "comments")[0]?.target;
  const threads = stored === undefined ? new Set<string>() : threadedCells(stored, patch.text(stored));
  const merged = onePerCell(notes.map((note) => besideThread(note, threads)));
  const comments = stored ?? addCommentsPart(patch, `${folder}comments#.xml`, layout);
  patch.write(comments, addComments(comments, patch.text(comments), merged));

  const { part, edits } = drawingOf(patch, layout, `${folder}drawings/vmlDrawing#.vml`, sheetNumber);
  const shapes = merged.map(({ row, column, text }) => ({ row, column, lines: lineCount(text) }));
  patch.write(part, addNoteShapes(part, patch.text(part), shapes, sheetNumber, blocksBeside(patch, part)));
  return edits;
}

/**
 * A cell with a thread of comments cannot have a note as well: what stands in its place is for programs that do not know threads, and
 * Excel writes it anew. The note goes to the next cell on its right (on the left at the edge of the sheet) and names its own.
 */
function besideThread(note: NoteInPart, threads: ReadonlySet<string>): NoteInPart {
  const { row, text } = note;
  const step = note.column < columnLimit / 2 ? 1 : -1;
  let { column } = note;
  while (threads.has(placeKey(row, column))) column += step;
  return column === note.column ? note : { row, column, text: `${cellAddress(row, note.column)}: ${text}` };
}

function onePerCell(notes: readonly NoteInPart[]): NoteInPart[] {
  const merged = new Map<string, NoteInPart>();
  for (const note of notes) {
    checkPlace(note.row, note.column);
    const key = placeKey(note.row, note.column);
    const earlier = merged.get(key);
    merged.set(key, earlier ? { ...note, text: `${earlier.text}\n\n${note.text}` } : note);
  }
  return [...merged.values()];
}

function addCommentsPart(patch: PackagePatch, pattern: string, layout: SheetLayout): string {
  const part = patch.freeName(pattern);
  patch.write(part, emptyComments(layout.namespace));
  declareType(patch, part, contentTypes.comments);
  addRelationship(patch, layout.part, `${relationshipsFor(layout.namespace)}/comments`, part);
  return part;
}

/** The drawing with which the sheet shows its notes, or a new one and the element that refers to it. */
function drawingOf(
  patch: PackagePatch,
  layout: SheetLayout,
  pattern: string,
  sheetNumber: number,
): { part: string; edits: Splice[] } {
  const stored = layout.children.find(({ name }) => name === `${layout.prefix}legacyDrawing`);
  const ids = layout.children.flatMap((child) => drawingIds(layout, child));
  const target = readRelationships(patch, layout.part).find(({ id }) => ids.includes(id))?.target;
  if (target !== undefined) return { part: target, edits: [] };
  const part = patch.freeName(pattern);
  patch.write(part, emptyDrawing(freeBlock(sheetNumber, blocksBeside(patch, part))));
  declareExtension(patch, "vml", contentTypes.vml);
  const base = relationshipsFor(layout.namespace);
  const id = addRelationship(patch, layout.part, vmlDrawingRelationship, part);
  const declared = layout.relationshipPrefix === undefined ? ` xmlns:r="${base}"` : "";
  const element = `<${layout.prefix}legacyDrawing${declared} ${layout.relationshipPrefix ?? "r"}:id="${id}"/>`;
  return { part, edits: [replaceOrInsert(layout, stored, element)] };
}

/** Ids in a child of the sheet that refers to its drawing: itself, or one of the alternatives that it holds. */
function drawingIds({ part, xml }: SheetLayout, { name, start, end }: SheetChild): string[] {
  const local = localName(name);
  if (local !== "legacyDrawing" && local !== "AlternateContent") return [];
  const found: string[] = [];
  const look = (element: XmlElement): void => {
    const id = element.attributes.find((attribute) => localName(attribute.name) === "id")?.value;
    if (element.local === "legacyDrawing" && id !== undefined) found.push(id);
    element.children.forEach(look);
  };
  look(parseXml(part, xml.slice(start, end)));
  return found;
}

/** The blocks of ids that other drawings have. */
function blocksBeside(patch: PackagePatch, part: string): Set<number> {
  const others = patch.names().filter((name) => /\.vml$/i.test(name) && name !== part);
  return new Set(others.flatMap((name) => blocksOf(patch.text(name))));
}

/** The schema wants the element after all others but a few. A stored one whose target is missing is replaced. */
function replaceOrInsert(layout: SheetLayout, stored: SheetChild | undefined, element: string): Splice {
  if (stored) return { start: stored.start, end: stored.end, text: element };
  const at = layout.children.filter(({ name }) => !behindDrawing.has(localName(name))).at(-1)?.end ?? 0;
  return { start: at, end: at, text: element };
}

function lineCount(text: string): number {
  return text
    .split("\n")
    .reduce((lines, line) => lines + Math.max(1, Math.ceil(line.length / boxLineLength)), 0);
}
