import { cellAddress, parseAddress, parseArea } from "../../cells/a1.js";
import type { Area } from "../../cells/area.js";
import { CellReader, type SheetContext } from "./cell-read.js";
import { WorkbookError } from "../error.js";
import { columnLimit, rowLimit } from "../../cells/limits.js";
import type { Cell } from "../model.js";
import { isMain, isRelationshipNamespace } from "../package/names.js";
import { SharedFormulas } from "./shared-formulas.js";
import type { CellSpot, RowSpot, SheetChild, SheetLayout } from "./sheet-layout.js";
import type { Writable } from "../xml/writable.js";
import type { OpenTag, XmlHandler } from "../xml/xml-events.js";
import { scanXml } from "../xml/xml-scan.js";
import { isTrue, localName, prefixOf } from "../xml/xml-tree.js";

interface OpenRow extends Writable<RowSpot> {
  readonly cells: Writable<CellSpot>[];
  /** Whether the row states its number itself. */
  readonly numbered: boolean;
  readonly hidden: boolean;
}

/**
 * Reads the cells of a sheet and the layout of its part in one pass.
 *
 * @throws WorkbookError if the part is damaged: not well-formed, out of order, or with an invalid value
 */
export function readSheet(
  part: string,
  xml: string,
  context: SheetContext,
): {
  cells: Cell[];
  isProtected: boolean;
  hidden: number[];
  filter: Area | undefined;
  layout: SheetLayout;
} {
  const reader = new SheetReader(part, context);
  scanXml(part, xml, reader);
  const { cells, isProtected, filter, prefix, namespace, relationshipPrefix, rows, children } = reader;
  const shared = reader.shared.resolve(cells);
  if (!shared) throw new WorkbookError(`is damaged: ${part} shares a formula that it does not hold`);
  return {
    cells,
    isProtected,
    hidden: rows.filter(({ hidden }) => hidden).map(({ row }) => row),
    filter: filter.chooses ? filter.area : undefined,
    layout: { part, xml, prefix, namespace, relationshipPrefix, rows, children, shared },
  };
}

/** Depths: 1 worksheet, 2 sheetData and its siblings, 3 row, 4 cell, 5 value or formula. */
class SheetReader implements XmlHandler {
  readonly cells: Cell[] = [];
  readonly rows: OpenRow[] = [];
  readonly children: Writable<SheetChild>[] = [];
  readonly shared = new SharedFormulas();
  isProtected = false;
  readonly filter: { area: Area | undefined; chooses: boolean } = { area: undefined, chooses: false };
  prefix = "";
  namespace = "";
  relationshipPrefix: string | undefined;

  private depth = 0;
  private names = { sheetData: "", row: "", c: "" };
  private row: OpenRow | undefined;
  private spot: Writable<CellSpot> | undefined;
  private readonly cell: CellReader;

  constructor(
    private readonly part: string,
    context: SheetContext,
  ) {
    this.cell = new CellReader(context);
  }

  open(tag: OpenTag): void {
    this.depth++;
    if (this.depth === 1) this.openRoot(tag);
    else if (this.depth === 2) this.openChild(tag);
    else if (this.depth === 3) this.openRow(tag);
    else if (this.depth === 4) this.openCell(tag);
    else if (this.spot) {
      if (this.depth > 5) this.cell.open(tag);
      else
        this.cell.openField(tag.name.startsWith(this.prefix) ? tag.name.slice(this.prefix.length) : "", tag);
    }
  }

  text(data: string): void {
    if (this.spot && this.depth > 4) this.cell.text(data);
  }

  close(_name: string, start: number, end: number): void {
    const depth = this.depth--;
    if (depth > 5) this.cell.close();
    else if (depth === 5) this.cell.closeField();
    else if (depth === 4) this.closeCell(end);
    else if (depth === 3) {
      if (this.row) Object.assign(this.row, { closeStart: start, end });
      this.row = undefined;
    } else if (depth === 2) {
      const child = this.children.at(-1);
      if (child) Object.assign(child, { closeStart: start, end });
    } else if (!this.children.some(({ name }) => name === this.names.sheetData))
      throw this.damaged("has no sheetData");
  }

  private openRoot(tag: OpenTag): void {
    const prefix = prefixOf(tag.name);
    this.namespace = tag.value(prefix === "" ? "xmlns" : `xmlns:${prefix}`) ?? "";
    if (localName(tag.name) !== "worksheet" || !isMain(this.namespace)) throw this.damaged("is no worksheet");
    this.prefix = prefix === "" ? "" : `${prefix}:`;
    const declared = tag.attributes.find(
      (a) => a.name.startsWith("xmlns:") && isRelationshipNamespace(a.value),
    );
    this.relationshipPrefix = declared && localName(declared.name);
    this.names = { sheetData: `${this.prefix}sheetData`, row: `${this.prefix}row`, c: `${this.prefix}c` };
  }

  private openChild(tag: OpenTag): void {
    const { name, start, end } = tag;
    if (name === `${this.prefix}sheetProtection`) this.isProtected = isTrue(tag.value("sheet"));
    if (name === `${this.prefix}autoFilter`) this.filter.area = parseArea(tag.value("ref") ?? "");
    this.children.push({ name, start, openEnd: end, closeStart: end, end });
  }

  private openRow(tag: OpenTag): void {
    const parent = this.children.at(-1)?.name;
    if (tag.name === `${this.prefix}filterColumn` && parent === `${this.prefix}autoFilter`)
      this.filter.chooses = true;
    if (tag.name !== this.names.row || parent !== this.names.sheetData) return;
    const { start, end } = tag;
    const last = this.rows.at(-1)?.row ?? -1;
    const number = tag.value("r");
    const row = number === undefined ? last + 1 : Number(number) - 1;
    if (!Number.isInteger(row) || row < 0 || row >= rowLimit)
      throw this.damaged(`has a row ${number === undefined ? row + 1 : `"${number}"`}`);
    if (row <= last) throw this.damaged(`has rows out of order at row ${row + 1}`);
    const numbered = number !== undefined;
    const hidden = isTrue(tag.value("hidden"));
    this.row = { row, start, openEnd: end, closeStart: end, end, cells: [], numbered, hidden };
    this.rows.push(this.row);
  }

  private openCell(tag: OpenTag): void {
    if (!this.row || tag.name !== this.names.c) return;
    const { cells } = this.row;
    const last = cells.at(-1)?.column ?? -1;
    const r = tag.value("r");
    const place = r === undefined ? { row: this.row.row, column: last + 1 } : parseAddress(r);
    if (!place || place.column >= columnLimit)
      throw this.damaged(`has a cell ${r === undefined ? `beyond column ${columnLimit}` : `"${r}"`}`);
    // Some writers state the row's number only in its cells.
    if (!this.row.numbered && cells.length === 0 && place.row > this.row.row) this.row.row = place.row;
    if (place.column <= last || place.row !== this.row.row) {
      throw this.damaged(`has cells out of order at ${cellAddress(place.row, place.column)}`);
    }
    this.spot = { row: place.row, column: place.column, start: tag.start, end: tag.end };
    cells.push(this.spot);
    this.cell.start(tag);
  }

  private closeCell(end: number): void {
    if (!this.spot) return;
    const { row, column } = this.spot;
    this.spot.end = end;
    this.spot = undefined;
    const value = this.cell.value();
    if (value === undefined) throw this.damaged(`holds ${this.cell.stored} in ${cellAddress(row, column)}`);
    const stored = this.cell.storedFormula();
    if (stored && stored.text !== "") {
      if (stored.type === "shared") this.shared.hold(stored, row, column);
      this.cells.push({ row, column, value, formula: this.cell.ownFormula(stored, row, column) });
    } else if (stored?.type === "shared") {
      this.shared.refer(stored, this.cells.length);
      this.cells.push({ row, column, value });
    } else if (value !== null) this.cells.push({ row, column, value });
  }

  private damaged(what: string): WorkbookError {
    return new WorkbookError(`is damaged: ${this.part} ${what}`);
  }
}
