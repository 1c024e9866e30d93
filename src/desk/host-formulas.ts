import { Book } from "../engine/book.js";
import { cellAddress, follow, type Area, type Names, type Place } from "../formulas/cells.js";
import { ownFunctions, readFormula, type OwnFunctions } from "../formulas/own-calls.js";
import { renamedFormula } from "../formulas/rename.js";
import { singleCall, type ArgumentSource } from "../formulas/single-call.js";
import { NAMESPACE } from "../functions/function-spec.js";
import { nameKey } from "../instruments/name.js";
import type { Call, FunctionInfo, Formulas, OurFormula, Report, Rows, Work } from "../pane/ports.js";
import { parseAddress } from "../workbook/address.js";
import type { CellValue, WorkbookModel } from "../workbook/model.js";
import { namedInstruments, namesOf } from "./named-instruments.js";
import type { Sheet, SheetPlace } from "./sheet.js";

/** As Excel hands values out: a blank is an empty text, an error its code. */
export function shownValue(value: CellValue): unknown {
  if (value === null) return "";
  return typeof value === "object" ? value.error : value;
}

/** Finds our formulas in the sheet on the page, and has them calculated again. */
export class DeskFormulas implements Formulas {
  readonly #functions: OwnFunctions;
  readonly #names: Names;
  readonly #book: Book;

  constructor(
    private readonly sheet: Sheet,
    model: WorkbookModel,
    list: readonly FunctionInfo[],
  ) {
    this.#functions = ownFunctions(NAMESPACE, list);
    this.#book = new Book(model);
    this.#names = namesOf(model, this.#book);
  }

  readonly find = (work: Work): Promise<readonly OurFormula[]> =>
    Promise.resolve().then(() => {
      const found: OurFormula[] = [];
      for (const [index, sheet] of this.#book.sheetNames.entries()) {
        work.signal.throwIfAborted();
        work.onProgress(index, this.#book.sheetNames.length);
        for (const { row, column, formula, value } of this.sheet.cells(index))
          if (formula !== undefined && readFormula(`=${formula}`, this.#functions).calls.length > 0)
            found.push(this.#described({ sheet, row, column }, `=${formula}`, value));
      }
      return found;
    });

  readonly calls = (formulas: readonly OurFormula[]): Promise<readonly (Call | undefined)[]> =>
    Promise.resolve().then(() => formulas.map((formula) => this.#call(formula)));

  readonly rerun = async (formulas: readonly OurFormula[], work: Work): Promise<Report> => {
    work.signal.throwIfAborted();
    work.onProgress(0, formulas.length);
    const places = formulas.flatMap((formula) => this.#place(formula) ?? []);
    await this.sheet.recalculate(places);
    work.onProgress(places.length, formulas.length);
    return { done: places.length, failed: [] };
  };

  readonly rename = async (
    formulas: readonly OurFormula[],
    from: string,
    to: string,
    work: Work,
  ): Promise<Report> => {
    work.signal.throwIfAborted();
    const written = new Map<string, SheetPlace & { readonly text: string }>();
    const write = (place: SheetPlace, text: string): void => {
      written.set(`${place.sheet},${place.row},${place.column}`, { ...place, text });
    };
    for (const found of formulas) {
      const place = this.#place(found);
      if (!place) continue;
      const formula = this.#formulaAt(place);
      const renamed = renamedFormula(formula, from, to, this.#functions);
      if (renamed !== formula) write(place, renamed);
      for (const cell of this.#namingCells(found, formula, from)) write(cell, to);
    }
    await this.sheet.write([...written.values()]);
    await this.sheet.settled();
    work.onProgress(formulas.length, formulas.length);
    return { done: formulas.length, failed: [] };
  };

  readonly show = (formula: OurFormula): Promise<void> => {
    const place = this.#place(formula);
    if (place) this.sheet.reveal(place);
    return Promise.resolve();
  };

  /** Cells of an area of the workbook, as far as any are in use. */
  rows({ sheet, top, left, bottom, right }: Area): Rows {
    const index = this.#book.sheetNamed(sheet) ?? -1;
    const { height, width } = this.sheet.extent(index);
    const rows: unknown[][] = [];
    for (let row = top; row <= Math.max(top, Math.min(bottom, height - 1)); row++) {
      const line: unknown[] = [];
      for (let column = left; column <= Math.max(left, Math.min(right, width - 1)); column++)
        line.push(shownValue(this.sheet.at({ sheet: index, row, column }).value));
      rows.push(line);
    }
    return rows;
  }

  /** The cells that a reference means which someone wrote in a cell. @returns undefined if it leads to none */
  area(reference: string, at: Place): Area | undefined {
    const target = follow(reference, at, this.#names);
    return target && !("text" in target) ? target : undefined;
  }

  /** How the workbook's sheet of this number is called. */
  sheetName(index: number): string {
    return this.#book.sheetNames[index] ?? "";
  }

  #described(at: Place, formula: string, value: CellValue): OurFormula {
    const { written, areas, any } = namedInstruments(formula, at, this.#names, this.#functions);
    const inCells = areas.flatMap((area) => this.rows(area).flat().map(String));
    return {
      sheet: at.sheet,
      address: cellAddress(at),
      formula,
      value: shownValue(value),
      instruments: [...written, ...inCells.filter((name) => nameKey(name) !== "")],
      anyInstrument: any,
    };
  }

  #call({ formula, sheet, address }: OurFormula): Call | undefined {
    const single = singleCall(formula, this.#functions);
    const place = parseAddress(address);
    if (!single || !place) return undefined;
    const args = single.args.map((argument) => this.#argument(argument, { sheet, ...place }));
    return args.includes("lost")
      ? undefined
      : { name: single.name, args: args.filter((argument) => argument !== "lost") };
  }

  #argument(source: ArgumentSource, at: Place): Rows | undefined | "lost" {
    if (!source) return undefined;
    if ("value" in source) return [[source.value]];
    const target = follow(source.reference, at, this.#names);
    if (!target) return "lost";
    return "text" in target ? [[target.text]] : this.rows(target);
  }

  /** Cells with the name in them, from which a formula takes its instrument. What a formula gives there stays. */
  #namingCells({ sheet, address }: OurFormula, formula: string, name: string): SheetPlace[] {
    const place = parseAddress(address);
    if (!place) return [];
    const { areas } = namedInstruments(formula, { sheet, ...place }, this.#names, this.#functions);
    return areas.flatMap((area) =>
      this.rows(area).flatMap((line, down) =>
        line.flatMap((value, across) => {
          const cell = {
            sheet: this.#book.sheetNamed(area.sheet) ?? -1,
            row: area.top + down,
            column: area.left + across,
          };
          const isName = typeof value === "string" && nameKey(value) === nameKey(name);
          return isName && this.sheet.at(cell).formula === undefined ? [cell] : [];
        }),
      ),
    );
  }

  #formulaAt(place: SheetPlace): string {
    return `=${this.sheet.at(place).formula ?? ""}`;
  }

  #place({ sheet, address }: OurFormula): SheetPlace | undefined {
    const place = parseAddress(address);
    const index = this.#book.sheetNamed(sheet);
    return place && index !== undefined ? { sheet: index, ...place } : undefined;
  }
}
