import { cellAddress } from "../../cells/a1.js";
import type { Position, SheetPlace } from "../../cells/place.js";
import type { SheetArea } from "../../cells/area.js";
import { areaReference } from "../../formulas/references.js";
import type { OwnFunctions } from "../../formulas/own-calls.js";
import { foundCalls, type FoundCall } from "../../formulas/single-call.js";
import {
  type InnerCall,
  isAgreed,
  type SelectedCells,
  type SelectedFormula,
  type Selection,
} from "../../pane/ports/selection-port.js";
import { shownValue, type BookCells } from "./book-cells.js";

/** More readings than anyone picks by hand. */
const MOST_CELLS = 10_000;

const nothingSelected = "Select a cell in the sheet first.";
const nowhere = (reference: string): string =>
  `"${reference}" leads to no cells of this workbook. Write a reference such as B2:B9 or 'Brew day'!B2.`;
const tooMany = (count: number): string =>
  `These are ${count.toLocaleString("en")} cells; up to ${MOST_CELLS.toLocaleString("en")} can be read. Select fewer.`;

/** The selection in the sheet on the page, and writing a formula into it. */
export class DeskSelection implements Selection {
  constructor(
    private readonly cells: BookCells,
    private readonly functions: OwnFunctions,
  ) {}

  readonly read = async (): Promise<SelectedCells> => {
    const area = await Promise.resolve(this.#selected());
    return this.#cells(area, area.sheet);
  };

  readonly at = async (reference: string): Promise<SelectedCells> => {
    const { sheet, top, left } = await Promise.resolve(this.#selected());
    const at: SheetPlace = { sheet, row: top, column: left };
    const area = this.cells.resolve(reference.trim().replace(/^=/, "").trim(), at);
    if (!area || !("sheet" in area)) throw new Error(nowhere(reference));
    return this.#cells(area, sheet);
  };

  readonly formula = (): Promise<SelectedFormula | undefined> =>
    Promise.resolve().then(() => {
      const selected = this.cells.sheet.selected();
      return selected && this.#formulaBehind(selected);
    });

  readonly insert: Selection["insert"] = async (formula, over) => {
    const { sheet } = this.cells;
    const place = sheet.selected();
    if (!place) throw new Error(nothingSelected);
    const { value, formula: there } = sheet.at(place);
    const { row, column } = place;
    const area = { sheet: this.#name(place.sheet), top: row, left: column, bottom: row, right: column };
    const at = areaReference(area, "");
    const held = { occupied: there === undefined ? String(shownValue(value)) : `=${there}`, at };
    if ((value !== null || there !== undefined) && !isAgreed(held, over)) return held;
    await sheet.write([{ ...place, text: formula }]);
    await sheet.settled();
    return { inserted: at };
  };

  #formulaBehind(place: Position): SelectedFormula | undefined {
    const { sheet } = this.cells;
    const anchor = sheet.anchorOf(place);
    const formula = `=${sheet.at(anchor).formula ?? ""}`;
    const found = foundCalls(formula, this.functions);
    if (found.length === 0) return undefined;
    const name = this.#name(place.sheet);
    const at = { sheet: name, row: anchor.row, column: anchor.column };
    return {
      sheet: name,
      address: cellAddress(place.row, place.column),
      formula,
      value: shownValue(sheet.at(place).value),
      row: place.row - anchor.row,
      column: place.column - anchor.column,
      calls: found.map((call) => ({ ...call, args: this.#arguments(call, at) })),
    };
  }

  #arguments({ args }: FoundCall, at: SheetPlace): InnerCall["args"] {
    const read = args?.map((source) =>
      source && "call" in source ? source : this.cells.argument(source, at),
    );
    return read?.includes("lost") ? undefined : read?.filter((argument) => argument !== "lost");
  }

  #selected(): SheetArea {
    const selected = this.cells.sheet.selected();
    if (!selected) throw new Error(nothingSelected);
    const { sheet, row, column, bottom, right } = selected;
    return { sheet: this.#name(sheet), top: row, left: column, bottom, right };
  }

  #cells(area: SheetArea, from: string): SelectedCells {
    const places = this.cells.places(area);
    const count = places.length * (places[0]?.length ?? 0);
    if (count > MOST_CELLS) throw new Error(tooMany(count));
    return { reference: areaReference(area, from), rows: this.cells.rows(area) };
  }

  #name(sheet: number): string {
    return this.cells.sheetNames[sheet] ?? "";
  }
}
