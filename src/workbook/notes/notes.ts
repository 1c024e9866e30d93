import { placeKey } from "../../cells/place.js";
import { checkPlace } from "../sheet/check-place.js";
import { addComments, emptyComments, type NoteInPart } from "./comments-part.js";
import { declareExtension, declareType } from "../package/content-types.js";
import { contentTypes, relationshipsFor } from "../package/names.js";
import { addNoteShapes, boxLineLength, emptyDrawing } from "./note-shapes.js";
import type { PackagePatch } from "../package/package-patch.js";
import { addRelationship, folderOf, readRelationships, related } from "../package/relationships.js";
import type { SheetChild, SheetLayout } from "../sheet/sheet-layout.js";
import type { Splice } from "../xml/xml-splice.js";
import { localName, parseXml } from "../xml/xml-tree.js";

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
  const merged = onePerCell(notes);
  if (merged.length === 0) return [];
  const folder = folderOf(workbookPart);
  const comments =
    related(patch, layout.part, "comments")[0]?.target ??
    addCommentsPart(patch, `${folder}comments#.xml`, layout);
  patch.write(comments, addComments(comments, patch.text(comments), merged));

  const { part, edits } = drawingOf(patch, layout, `${folder}drawings/vmlDrawing#.vml`, sheetNumber);
  const shapes = merged.map(({ row, column, text }) => ({ row, column, lines: lineCount(text) }));
  patch.write(part, addNoteShapes(part, patch.text(part), shapes, sheetNumber));
  return edits;
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
  if (stored) {
    const element = parseXml(layout.part, layout.xml.slice(stored.start, stored.end));
    const id = element.attributes.find(({ name }) => localName(name) === "id")?.value;
    const target = readRelationships(patch, layout.part).find(
      (relationship) => relationship.id === id,
    )?.target;
    if (target !== undefined) return { part: target, edits: [] };
  }
  const part = patch.freeName(pattern);
  patch.write(part, emptyDrawing(sheetNumber));
  declareExtension(patch, "vml", contentTypes.vml);
  const base = relationshipsFor(layout.namespace);
  const id = addRelationship(patch, layout.part, `${base}/vmlDrawing`, part);
  const declared = layout.relationshipPrefix === undefined ? ` xmlns:r="${base}"` : "";
  const element = `<${layout.prefix}legacyDrawing${declared} ${layout.relationshipPrefix ?? "r"}:id="${id}"/>`;
  return { part, edits: [replaceOrInsert(layout, stored, element)] };
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
