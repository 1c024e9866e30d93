import { foldCase } from "../../formulas/sheet-name.js";
import type { DefinedName, Table, WorkbookModel } from "../../workbook/model.js";

/** What formulas can name in a workbook. As in Excel, names ignore case. */
export class Book {
  readonly sheetNames: readonly string[];
  /** Dates count from 1904, which none of the date functions here expect. */
  readonly since1904: boolean;
  readonly #sheets = new Map<string, number>();
  readonly #names = new Map<string, DefinedName>();
  readonly #tables = new Map<string, Table>();

  constructor(model: WorkbookModel) {
    this.sheetNames = model.sheets.map((sheet) => sheet.name);
    this.since1904 = model.since1904 ?? false;
    for (const [index, name] of this.sheetNames.entries()) this.#sheets.set(foldCase(name), index);
    for (const name of model.names) this.#names.set(nameKey(name.name, name.sheet), name);
    for (const table of model.tables) this.#tables.set(foldCase(table.name), table);
  }

  sheetNamed(name: string): number | undefined {
    return this.#sheets.get(foldCase(name));
  }

  /** A name limited to the sheet takes precedence over one of the whole workbook. */
  definedName(name: string, sheet: number): DefinedName | undefined {
    return this.#names.get(nameKey(name, this.sheetNames[sheet])) ?? this.#names.get(nameKey(name));
  }

  table(name: string): Table | undefined {
    return this.#tables.get(foldCase(name));
  }
}

function nameKey(name: string, sheet?: string): string {
  return `${sheet === undefined ? "" : foldCase(sheet)}!${foldCase(name)}`;
}
