import { areaText, parseArea } from "../../cells/a1.js";
import { type Area, sameArea } from "../../cells/area.js";
import { isSelfClosing, lowerBound, type RowSpot, type SheetLayout } from "./sheet-layout.js";
import { setAttribute, shift, type Splice } from "../xml/xml-splice.js";
import { attributeOf, parseXml } from "../xml/xml-tree.js";

/** A <c> element for a place that has none. */
export interface NewCell {
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

/** Edits that insert new cells in their place, in an existing or a new row; the sheet's dimensions are updated. */
export function insertCells(layout: SheetLayout, added: readonly NewCell[]): Splice[] {
  if (added.length === 0) return [];
  const byRow = new Map<number, NewCell[]>();
  for (const cell of [...added].sort((a, b) => a.row - b.row || a.column - b.column)) {
    const inRow = byRow.get(cell.row);
    if (inRow) inRow.push(cell);
    else byRow.set(cell.row, [cell]);
  }
  const missing: { row: number; text: string }[] = [];
  const edits: Splice[] = [];
  for (const [row, cells] of byRow) {
    const spot = layout.rows[lowerBound(layout.rows, (r) => r.row, row)];
    if (spot?.row === row) edits.push(...fillRow(layout, spot, cells));
    else missing.push({ row, text: newRow(layout.prefix, row, cells) });
  }
  return [...edits, ...insertRows(layout, missing), ...extendDimension(layout, added)];
}

function fillRow(layout: SheetLayout, spot: RowSpot, cells: readonly NewCell[]): Splice[] {
  const spans = extendSpans(layout, spot, cells);
  if (isSelfClosing(spot))
    return [...spans, reopen(spot, cells.map(({ text }) => text).join(""), `${layout.prefix}row`)];
  const inserted = cells.map(({ column, text }) => {
    const at = spot.cells[lowerBound(spot.cells, (cell) => cell.column, column)]?.start ?? spot.closeStart;
    return { start: at, end: at, text };
  });
  return [...spans, ...inserted];
}

function newRow(prefix: string, row: number, cells: readonly NewCell[]): string {
  return `<${prefix}row r="${row + 1}">${cells.map(({ text }) => text).join("")}</${prefix}row>`;
}

function insertRows(layout: SheetLayout, missing: readonly { row: number; text: string }[]): Splice[] {
  const name = `${layout.prefix}sheetData`;
  const data = layout.children.find((child) => child.name === name);
  if (!data || missing.length === 0) return [];
  if (isSelfClosing(data)) return [reopen(data, missing.map(({ text }) => text).join(""), name)];
  return missing.map(({ row, text }) => {
    const at = layout.rows[lowerBound(layout.rows, (r) => r.row, row)]?.start ?? data.closeStart;
    return { start: at, end: at, text };
  });
}

/** Gives content to a self-closing element. */
function reopen({ openEnd }: { readonly openEnd: number }, content: string, name: string): Splice {
  return { start: openEnd - 2, end: openEnd, text: `>${content}</${name}>` };
}

/** "spans" is a hint of the columns in use. A single span grows; a list of them is dropped. */
function extendSpans(layout: SheetLayout, spot: RowSpot, cells: readonly NewCell[]): Splice[] {
  const tag = layout.xml.slice(spot.start, spot.openEnd);
  const xml = isSelfClosing(spot) ? tag : `${tag.slice(0, -1)}/>`;
  const row = parseXml(layout.part, xml);
  const spans = attributeOf(row, "spans");
  if (spans === undefined) return [];
  const [from = NaN, to = NaN, ...more] = spans.split(/[: ]/).map(Number);
  const columns = cells.map(({ column }) => column + 1);
  const first = Math.min(from, ...columns);
  const last = Math.max(to, ...columns);
  if (first === from && last === to && more.length === 0) return [];
  const single = more.length === 0 && Number.isInteger(first) && Number.isInteger(last);
  return shift(setAttribute(xml, row, "spans", single ? `${first}:${last}` : undefined), spot.start);
}

function extendDimension(layout: SheetLayout, added: readonly NewCell[]): Splice[] {
  const child = layout.children.find(({ name }) => name === `${layout.prefix}dimension`);
  if (!child) return [];
  const xml = layout.xml.slice(child.start, child.end);
  const element = parseXml(layout.part, xml);
  const stored = parseArea(attributeOf(element, "ref") ?? "");
  if (!stored) return [];
  const wanted = added.reduce(extended, stored);
  return sameArea(stored, wanted)
    ? []
    : shift(setAttribute(xml, element, "ref", areaText(wanted)), child.start);
}

function extended(area: Area, { row, column }: NewCell): Area {
  return {
    top: Math.min(area.top, row),
    left: Math.min(area.left, column),
    bottom: Math.max(area.bottom, row),
    right: Math.max(area.right, column),
  };
}
