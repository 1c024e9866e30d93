import { placeKey } from "../../cells/place.js";
import { Parser } from "htmlparser2";
import { WorkbookError } from "../error.js";
import { columnLimit, rowLimit } from "../../cells/limits.js";
import { splice } from "../xml/xml-splice.js";
import { blocksOf, newIds, shapeLayout, withBlocks } from "./shape-ids.js";
import { localName } from "../xml/xml-tree.js";

// A note is visible only with a shape in the old drawing language VML, in a part of its own beside the comments part.

/** A cell whose note needs a shape, and the number of lines of its text. */
export interface NoteShape {
  readonly row: number;
  readonly column: number;
  readonly lines: number;
}

const namespaces = [
  ["xmlns:v", "urn:schemas-microsoft-com:vml"],
  ["xmlns:o", "urn:schemas-microsoft-com:office:office"],
  ["xmlns:x", "urn:schemas-microsoft-com:office:excel"],
] as const;
const boxType = "_x0000_t202"; // the number that text boxes always have
const boxShapeType =
  `<v:shapetype id="${boxType}" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe">` +
  '<v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>';
const boxColumns = 3;
const fewestRows = 4;
const mostRows = 30;

/** Characters of a note that fit on a line of its box. */
export const boxLineLength = 30;

/** A drawing part without shapes, whose shapes will have ids of this block. */
export function emptyDrawing(block: number): string {
  return `<xml${declarations(new Set())}>${shapeLayout([block])}</xml>`;
}

/**
 * Adds hidden note boxes to a drawing part; a cell that has one does not get a second. Existing content stays as it is.
 *
 * @param sheetNumber from 1; the block of ids for a drawing that lists none
 * @param taken blocks of ids that other drawings have
 * @throws WorkbookError if the part is not a VML drawing
 */
export function addNoteShapes(
  part: string,
  vml: string,
  wanted: readonly NoteShape[],
  sheetNumber: number,
  taken: ReadonlySet<number>,
): string {
  const { opened, end, ids, notes, declared } = readDrawing(part, vml);
  if (!vml.startsWith("</", end)) throw new WorkbookError(`is damaged: ${part} is no VML drawing`);
  const listed = blocksOf(vml);
  const blocks = listed.length === 0 ? [sheetNumber] : [...listed];
  const free = newIds(blocks, taken, (number) => ids.has(`_x0000_s${number}`));
  const boxes = wanted
    .filter(({ row, column }) => !notes.has(placeKey(row, column)))
    .map((shape) => noteBox(`_x0000_s${free.next().value}`, shape, declarations(declared)));
  const shapeType =
    boxes.length === 0 || ids.has(boxType) ? "" : boxShapeType.replace(" ", declarations(declared) + " ");
  const edits = [{ start: end, end, text: shapeType + boxes.join("") }];
  if (listed.length > 0) return withBlocks(splice(vml, edits), blocks);
  if (blocks.length === 1) return splice(vml, edits);
  const layout = shapeLayout(blocks).replace(" ", `${declarations(declared)} `);
  return splice(vml, [{ start: opened, end: opened, text: layout }, ...edits]);
}

/** Parsed leniently: Excel's own drawings contain HTML that is not XML. */
function readDrawing(part: string, vml: string) {
  const ids = new Set<string>();
  const notes = new Set<string>();
  const declared = new Set<string>();
  let [opened, end] = [0, 0];
  let field = "";
  let client = { note: false, row: "", column: "" };
  const parser = new Parser(
    {
      onopentag(name, attributes) {
        field = localName(name);
        if (attributes["id"] !== undefined) ids.add(attributes["id"]);
        if (field === "xml") {
          Object.keys(attributes).forEach((attribute) => declared.add(attribute));
          opened = parser.endIndex + 1;
        }
        if (field === "ClientData")
          client = { note: attributes["ObjectType"] === "Note", row: "", column: "" };
      },
      ontext(data) {
        if (field === "Row") client.row += data;
        else if (field === "Column") client.column += data;
      },
      onprocessinginstruction(name) {
        if (name.startsWith("!")) throw new WorkbookError(`declares a DTD in ${part}; refused`);
      },
      onclosetag(name, implied) {
        field = "";
        if (localName(name) === "ClientData" && client.note)
          notes.add(`${Number(client.row)},${Number(client.column)}`);
        if (name === "xml" && !implied) end = parser.startIndex;
      },
    },
    { xmlMode: true },
  );
  parser.end(vml);
  return { opened, end, ids, notes, declared };
}

function declarations(present: ReadonlySet<string>): string {
  return namespaces
    .filter(([name]) => !present.has(name))
    .map(([name, uri]) => ` ${name}="${uri}"`)
    .join("");
}

function noteBox(id: string, { row, column, lines }: NoteShape, declared: string): string {
  const style =
    "position:absolute;margin-left:60pt;margin-top:2pt;width:160pt;height:60pt;z-index:1;visibility:hidden";
  return (
    `<v:shape${declared} id="${id}" type="#${boxType}" style="${style}" fillcolor="#ffffe1" o:insetmode="auto">` +
    '<v:fill color2="#ffffe1"/><v:shadow on="t" color="black" obscured="t"/><v:path o:connecttype="none"/>' +
    '<v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox>' +
    '<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/>' +
    `<x:Anchor>${anchor(row, column, lines)}</x:Anchor><x:AutoFill>False</x:AutoFill>` +
    `<x:Row>${row}</x:Row><x:Column>${column}</x:Column></x:ClientData></v:shape>`
  );
}

/**
 * Left, top, right and bottom of the box, each as a column or row with an offset in pixels: beside the cell, inside the
 * sheet.
 */
function anchor(row: number, column: number, lines: number): string {
  const rows = Math.min(mostRows, Math.max(fewestRows, lines + 1));
  const left = Math.min(column + 1, columnLimit - boxColumns - 1);
  const top = Math.min(Math.max(row - 1, 0), rowLimit - rows - 1);
  return [left, 15, top, 10, left + boxColumns, 15, top + rows, 4].join(", ");
}
