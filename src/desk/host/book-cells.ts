import type { CellAddress, Position, SheetPlace } from "../../cells/place.js";
import type { Area, SheetArea } from "../../cells/area.js";
import { Book } from "../../engine/references/book.js";
import { workbookNames } from "../../engine/references/workbook-names.js";
import { follow, type Names, type Target } from "../../formulas/cells.js";
import type { ArgumentSource } from "../../formulas/single-call.js";
import type { RawCells } from "../../functions/contract/cell-value.js";
import { parseAddress } from "../../cells/a1.js";
import type { CellValue, WorkbookModel } from "../../workbook/model.js";
import type { Sheet, SheetCell } from "../univer/sheet.js";

/** As a host hands values out: a blank is an empty text, an error its code. */
export function shownValue(value: CellValue): unknown {
  if (value === null) return "";
  return typeof value === "object" ? value.error : value;
}

/** The cells of the open workbook, by the names of its sheets, as the pane speaks of them. */
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

  /** @returns undefined where the workbook has no such sheet, or the sheet no such cell */
  place({ sheet, address }: CellAddress): Position | undefined {
    const place = parseAddress(address);
    const index = this.#book.sheetNamed(sheet);
    return place && index !== undefined ? { sheet: index, ...place } : undefined;
  }

  at(place: SheetPlace): SheetCell {
    return this.sheet.at({ ...place, sheet: this.#book.sheetNamed(place.sheet) ?? -1 });
  }

  /** What the sheet on the page shows, which may be more or less than the file knew of. */
  #spilledFrom({ sheet, row, column }: SheetPlace): Area | undefined {
    const at = { sheet: this.#book.sheetNamed(sheet) ?? -1, row, column };
    if (this.sheet.at(at).formula === undefined) return undefined;
    const { rows, columns } = this.sheet.filledBy(at);
    return { top: row, left: column, bottom: row + rows - 1, right: column + columns - 1 };
  }

  /** Whether the cell's content is its own, and not what a neighbour's formula puts there. */
  isOwn(place: SheetPlace): boolean {
    const at = { ...place, sheet: this.#book.sheetNamed(place.sheet) ?? -1 };
    const anchor = this.sheet.anchorOf(at);
    return anchor.row === at.row && anchor.column === at.column;
  }

  /** The cells that a reference means which someone wrote in a cell. */
  follow(reference: string, at: SheetPlace): Target {
    return follow(reference, at, this.names);
  }

  /** Places of an area, row by row. Whole columns and rows end where the sheet on the page does. */
  places({ sheet, top, left, bottom, right }: SheetArea): SheetPlace[][] {
    const { height, width } = this.sheet.extent(this.#book.sheetNamed(sheet) ?? -1);
    const lastRow = Math.max(top, Math.min(bottom, height - 1));
    const lastColumn = Math.max(left, Math.min(right, width - 1));
    return Array.from({ length: lastRow - top + 1 }, (_, r) =>
      Array.from({ length: lastColumn - left + 1 }, (__, c) => ({ sheet, row: top + r, column: left + c })),
    );
  }

  /** @returns "lost" for a reference that leads to no cells; undefined for an argument that is left out */
  argument(source: ArgumentSource, at: SheetPlace): RawCells | undefined | "lost" {
    if (!source) return undefined;
    if ("value" in source) return [[source.value]];
    const target = this.follow(source.reference, at);
    return target && "sheet" in target ? this.rows(target) : "lost";
  }

  rows(area: SheetArea): RawCells {
    return this.places(area).map((line) => line.map((place) => shownValue(this.at(place).value)));
  }
}
