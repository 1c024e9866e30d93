import { parseAddress, parseArea } from "../../cells/a1.js";
import type { Area } from "../../cells/area.js";
import type { Writable } from "../xml/writable.js";
import type { OpenTag, XmlHandler } from "../xml/xml-events.js";
import { scanXml } from "../xml/xml-scan.js";
import { isTrue, localName } from "../xml/xml-tree.js";

/** Adjacent columns that look the same, both ends included. */
export interface ColumnLook {
  readonly from: number;
  readonly to: number;
  /** In characters of the default font. */
  readonly width: number | undefined;
  readonly hidden: boolean;
  readonly style: number | undefined;
}

export interface RowLook {
  readonly row: number;
  /** In points. */
  readonly height: number | undefined;
  readonly hidden: boolean;
}

/** Appearance of a sheet. Styles are indexes into the workbook's list. */
export interface SheetAppearance {
  readonly hidden: boolean;
  readonly gridlines: boolean;
  readonly defaultWidth: number | undefined;
  readonly defaultHeight: number | undefined;
  readonly columns: readonly ColumnLook[];
  /** Only rows with properties of their own. */
  readonly rows: readonly RowLook[];
  /** Cells with a style of their own, including those without a value. */
  readonly cells: readonly { readonly row: number; readonly column: number; readonly style: number }[];
  readonly merged: readonly Area[];
  /** Frozen rows and columns. */
  readonly frozen: { readonly rows: number; readonly columns: number };
}

/** @throws WorkbookError if the part is not well-formed */
export function readSheetAppearance(part: string, xml: string, hidden: boolean): SheetAppearance {
  const reader = new LookReader(hidden);
  scanXml(part, xml, reader);
  return reader.look;
}

type Growing = Omit<Writable<SheetAppearance>, "columns" | "rows" | "cells" | "merged"> & {
  readonly columns: ColumnLook[];
  readonly rows: RowLook[];
  readonly cells: { row: number; column: number; style: number }[];
  readonly merged: Area[];
};

class LookReader implements XmlHandler {
  readonly look: Growing;
  private depth = 0;
  private row = -1;
  private column = -1;

  constructor(hidden: boolean) {
    this.look = {
      hidden,
      gridlines: true,
      defaultWidth: undefined,
      defaultHeight: undefined,
      columns: [],
      rows: [],
      cells: [],
      merged: [],
      frozen: { rows: 0, columns: 0 },
    };
  }

  open(tag: OpenTag): void {
    this.depth++;
    // Most of a sheet is deeper than this: the values and formulas of cells.
    if (this.depth > 4) return;
    const { look } = this;
    switch (localName(tag.name)) {
      case "c":
        this.openCell(tag);
        break;
      case "row":
        this.openRow(tag);
        break;
      case "col":
        this.openColumn(tag);
        break;
      case "mergeCell": {
        const area = parseArea(tag.value("ref") ?? "");
        if (area) look.merged.push(area);
        break;
      }
      case "sheetFormatPr":
        look.defaultWidth = numberOf(tag, "defaultColWidth");
        look.defaultHeight = numberOf(tag, "defaultRowHeight");
        break;
      case "sheetView":
        look.gridlines = !isFalse(tag.value("showGridLines"));
        break;
      case "pane":
        if (tag.value("state")?.startsWith("frozen") === true)
          look.frozen = { rows: numberOf(tag, "ySplit") ?? 0, columns: numberOf(tag, "xSplit") ?? 0 };
        break;
    }
  }

  close(): void {
    this.depth--;
  }

  private openColumn(tag: OpenTag): void {
    const from = numberOf(tag, "min");
    const to = numberOf(tag, "max");
    if (from === undefined || to === undefined) return;
    this.look.columns.push({
      from: from - 1,
      to: to - 1,
      width: numberOf(tag, "width"),
      hidden: isTrue(tag.value("hidden")),
      style: numberOf(tag, "style"),
    });
  }

  private openRow(tag: OpenTag): void {
    this.row = (numberOf(tag, "r") ?? this.row + 2) - 1;
    this.column = -1;
    const height = numberOf(tag, "ht");
    const hidden = isTrue(tag.value("hidden"));
    if (height !== undefined || hidden) this.look.rows.push({ row: this.row, height, hidden });
  }

  private openCell(tag: OpenTag): void {
    this.column = parseAddress(tag.value("r") ?? "")?.column ?? this.column + 1;
    const style = numberOf(tag, "s");
    if (style !== undefined) this.look.cells.push({ row: this.row, column: this.column, style });
  }
}

function numberOf(tag: OpenTag, name: string): number | undefined {
  const text = tag.value(name);
  const number = text === undefined ? NaN : Number(text);
  return Number.isFinite(number) ? number : undefined;
}

function isFalse(value: string | undefined): boolean {
  return value === "0" || value === "false";
}
