import type { CellAddress, Position, SheetPlace } from "../../cells/place.js";
import type { Area, SheetArea } from "../../cells/area.js";
import { Book } from "../../engine/references/book.js";
import { workbookNames } from "../../engine/references/workbook-names.js";
import { resolveReference, type Names, type Target } from "../../formulas/references.js";
import type { ArgumentSource } from "../../formulas/single-call.js";
import type { RawCells } from "../../functions/contract/cell-value.js";
import { parseAddress } from "../../cells/a1.js";
import type { CellValue, WorkbookModel } from "../../workbook/model.js";
import type { Sheet, SheetCell } from "../univer/sheet.js";

/** A value as hosts return it: an empty text for a blank, its code for an error. */
export function shownValue(value: CellValue): unknown {
  if (value === null) return "";
  return typeof value === "object" ? value.error : value;
}

/** Cells of the open workbook, addressed by sheet name as in the pane. */
export class BookCells {
  readonly names: Names;
  readonly #book: Book;

  constructor(
    readonly sheet: Sheet,
    model: WorkbookModel,
  ) {
    this.#book = new Book(model);
    this.names = { ...workbookNames(model, this.#book), spilledFrom: (anchor) => this.#spilledFrom(anchor) };
  }

  get sheetNames(): readonly string[] {
    return this.#book.sheetNames;
  }

  /** @returns undefined if the workbook has no such sheet or the sheet no such cell */
  place({ sheet, address }: CellAddress): Position | undefined {
    const place = parseAddress(address);
    const index = this.#book.sheetNamed(sheet);
    return place && index !== undefined ? { sheet: index, ...place } : undefined;
  }

  at(place: SheetPlace): SheetCell {
    return this.sheet.at({ ...place, sheet: this.#book.sheetNamed(place.sheet) ?? -1 });
  }

  /** As the sheet on the page shows it, which may differ from the file. */
  #spilledFrom({ sheet, row, column }: SheetPlace): Area | undefined {
    const at = { sheet: this.#book.sheetNamed(sheet) ?? -1, row, column };
    if (this.sheet.at(at).formula === undefined) return undefined;
    const { rows, columns } = this.sheet.filledBy(at);
    return { top: row, left: column, bottom: row + rows - 1, right: column + columns - 1 };
  }

  /** Whether the content is the cell's own, not spilled from a neighbour's formula. */
  isOwn(place: SheetPlace): boolean {
    const at = { ...place, sheet: this.#book.sheetNamed(place.sheet) ?? -1 };
    const anchor = this.sheet.anchorOf(at);
    return anchor.row === at.row && anchor.column === at.column;
  }

  /** Resolves a reference written in a cell. */
  resolve(reference: string, at: SheetPlace): Target {
    return resolveReference(reference, at, this.names);
  }

  /** Places of an area, row by row. Whole columns and rows end at the edge of the sheet on the page. */
  places({ sheet, top, left, bottom, right }: SheetArea): SheetPlace[][] {
    const { height, width } = this.sheet.extent(this.#book.sheetNamed(sheet) ?? -1);
    const lastRow = Math.max(top, Math.min(bottom, height - 1));
    const lastColumn = Math.max(left, Math.min(right, width - 1));
    return Array.from({ length: lastRow - top + 1 }, (_, r) =>
      Array.from({ length: lastColumn - left + 1 }, (__, c) => ({ sheet, row: top + r, column: left + c })),
    );
  }

  /** @returns "lost" for a reference that resolves to no cells; undefined for an omitted argument */
  argument(source: ArgumentSource, at: SheetPlace): RawCells | undefined | "lost" {
    if (!source) return undefined;
    if ("value" in source) return [[source.value]];
    const target = this.resolve(source.reference, at);
    return target && "sheet" in target ? this.rows(target) : "lost";
  }

  rows(area: SheetArea): RawCells {
    return this.places(area).map((line) => line.map((place) => shownValue(this.at(place).value)));
  }
}
