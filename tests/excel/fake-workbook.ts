import { parseA1Ref } from "@borgar/fx/xlsx";
import { vi } from "vitest";
import { cellAddress } from "../../src/cells/a1.js";
import { ExcelError, item, Queue, remote, type Fields } from "./remote.js";

export interface FakeCell {
  formula: unknown;
  value: unknown;
  /** Where the formula stands whose result this is part of. */
  anchor?: string;
  unlocked?: boolean;
}

export interface FakeTable {
  readonly name: string;
  readonly sheet: string;
  readonly area: string;
  readonly columns: readonly string[];
}

class FakeSheet {
  visibility = "Visible";
  isProtected = false;
  readonly cells = new Map<string, FakeCell>();
  readonly names: { name: string; formula: string }[] = [];

  constructor(readonly name: string) {}

  /** Formulas get the value beside them; anything else is itself. */
  put(address: string, content: unknown, value: unknown = content, more: Partial<FakeCell> = {}): this {
    this.cells.set(address, { formula: content, value, ...more });
    return this;
  }
}

interface Box {
  readonly sheet: FakeSheet;
  readonly top: number;
  readonly left: number;
  readonly rows: number;
  readonly columns: number;
}

const errors = /^#(?:VALUE!|N\/A|DIV\/0!|NUM!|NULL!|NAME\?|REF!)$/;

/** A workbook with cells, sheets, names, tables and XML parts, as Excel's objects show it. */
export class FakeWorkbook {
  readonly queue = new Queue();
  readonly sheets: FakeSheet[] = [];
  readonly names: { name: string; formula: string }[] = [];
  readonly tables: FakeTable[] = [];
  readonly parts: { id: string; namespace: string; xml: string }[] = [];
  readonly dirty: string[] = [];
  /** Every content that was written, as it was handed over. */
  readonly written: (readonly [cell: string, content: unknown])[] = [];
  readonly largestRead = { cells: 0 };
  readonly changed: ((event: { source: string }) => Promise<void>)[] = [];
  readonly selectionChanged: (() => Promise<void>)[] = [];
  readonly calculated: (() => Promise<void>)[] = [];
  selected = "A1";
  active = 0;
  calculations: string[] = [];
  shown: string | undefined;
  /** Builds from before ExcelApi 1.12 do not know spills. */
  apiVersion = 1.12;
  #ids = 0;

  sheet(name: string): FakeSheet {
    const sheet = new FakeSheet(name);
    this.sheets.push(sheet);
    return sheet;
  }

  part(namespace: string, xml: string): void {
    this.parts.push({ id: `{${String(++this.#ids)}}`, namespace, xml });
  }

  /** Puts this workbook in the place of Excel's. */
  open(): this {
    vi.stubGlobal("Excel", {
      run: (_options: unknown, batch: (context: unknown) => Promise<unknown>) => batch(this.context()),
    });
    vi.stubGlobal("Office", {
      context: {
        requirements: {
          isSetSupported: (set: string, version: string) =>
            set === "ExcelApi" && Number(version.split(".")[1]) <= Math.round((this.apiVersion - 1) * 100),
        },
      },
    });
    return this;
  }

  context(): object {
    const { queue } = this;
    const sheetItems = () =>
      this.sheets.map((sheet) =>
        item(
          () => ({
            name: sheet.name,
            visibility: sheet.visibility,
            protection: item(() => ({ protected: sheet.isProtected })),
          }),
          this.#sheetMembers(() => sheet),
        ),
      );
    return {
      sync: queue.sync,
      application: {
        calculate: (kind: string) => {
          queue.add(() => {
            this.calculations.push(kind);
          });
        },
      },
      workbook: {
        worksheets: this.#collection(sheetItems, {
          getItem: (name: string) => this.#sheetObject(name),
          getItemOrNullObject: (name: string) => this.#sheetObject(name),
          onCalculated: {
            add: (handler: () => Promise<void>) => this.calculated.push(handler),
          },
          onChanged: {
            add: (handler: (event: { source: string }) => Promise<void>) => this.changed.push(handler),
          },
        }),
        onSelectionChanged: {
          add: (handler: () => Promise<void>) => this.selectionChanged.push(handler),
        },
        names: this.#collection(() => this.names.map((name) => item(() => ({ ...name })))),
        tables: this.#collection(() => this.tables.map((table) => this.#table(table))),
        customXmlParts: this.#parts(),
        getSelectedRange: () => this.#range(() => this.#box(this.#activeSheet(), this.selected)),
        getActiveCell: () =>
          this.#range(() => ({ ...this.#box(this.#activeSheet(), this.selected), rows: 1, columns: 1 })),
      },
    };
  }

  #activeSheet(): FakeSheet {
    const sheet = this.sheets[this.active];
    if (!sheet) throw new ExcelError("ItemNotFound");
    return sheet;
  }

  #collection(items: () => object[], members: Fields = {}): object {
    return remote(
      this.queue,
      () => this,
      () => ({ items: items() }),
      () => members,
    );
  }

  #sheetObject(name: string): object {
    const find = () => this.sheets.find((sheet) => sheet.name === name);
    return remote(
      this.queue,
      find,
      ({ visibility }) => ({ name, visibility }),
      (sure) => this.#sheetMembers(sure),
    );
  }

  #sheetMembers(sheet: () => FakeSheet): Fields {
    const at = (address: string): object => this.#range(() => this.#box(sheet(), address));
    const byPlace = (top: number, left: number, rows: number, columns: number): object =>
      this.#range(() => ({ sheet: sheet(), top, left, rows, columns }));
    return {
      names: this.#collection(() => sheet().names.map((name) => item(() => ({ ...name })))),
      getUsedRangeOrNullObject: () => this.#range(() => this.#used(sheet())),
      getRangeByIndexes: byPlace,
      getCell: (row: number, column: number) => byPlace(row, column, 1, 1),
      getRange: at,
      getRanges: (addresses: string) => ({
        setDirty: () => {
          this.queue.add(() => {
            if (addresses.length > 255) throw new ExcelError("InvalidArgument");
            for (const address of addresses.split(",")) this.#setDirty(this.#box(sheet(), address));
          });
        },
      }),
      activate: () => {
        this.queue.add(() => {
          this.active = this.sheets.indexOf(sheet());
        });
      },
    };
  }

  #setDirty(box: Box): void {
    this.#each(box, (address) => this.dirty.push(`${box.sheet.name}!${address}`));
  }

  #used(sheet: FakeSheet): Box | undefined {
    const places = [...sheet.cells.keys()].map((address) => this.#box(sheet, address));
    if (places.length === 0) return undefined;
    const range = (of: (box: Box) => number): [number, number] => {
      const all = places.map(of);
      return [all.reduce((a, b) => Math.min(a, b)), all.reduce((a, b) => Math.max(a, b))];
    };
    const [top, bottom] = range((box) => box.top);
    const [left, right] = range((box) => box.left);
    return { sheet, top, left, rows: bottom - top + 1, columns: right - left + 1 };
  }

  #box(sheet: FakeSheet, address: string): Box {
    const parsed = parseA1Ref(address);
    if (!parsed || !("range" in parsed)) throw new ExcelError("InvalidReference");
    const { top, left, bottom, right } = parsed.range;
    const [t, l] = [top ?? 0, left ?? 0];
    return {
      sheet,
      top: t,
      left: l,
      rows: (bottom ?? 1_048_575) - t + 1,
      columns: (right ?? 16_383) - l + 1,
    };
  }

  #each({ top, left, rows, columns }: Box, f: (address: string, r: number, c: number) => void): void {
    for (let r = 0; r < rows; r++) for (let c = 0; c < columns; c++) f(cellAddress(top + r, left + c), r, c);
  }

  #matrix(box: Box, of: (cell: FakeCell) => unknown, blank: unknown): unknown[][] {
    this.largestRead.cells = Math.max(this.largestRead.cells, box.rows * box.columns);
    const rows = Array.from({ length: box.rows }, () => Array.from({ length: box.columns }, () => blank));
    this.#each(box, (address, r, c) => {
      const cell = box.sheet.cells.get(address);
      const row = rows[r];
      if (cell && row) row[c] = of(cell);
    });
    return rows;
  }

  #range(find: () => Box | undefined): object {
    const { queue } = this;
    const matrix = (box: Box, of: (cell: FakeCell) => unknown, blank: unknown): unknown[][] =>
      this.#matrix(box, of, blank);
    const one = (box: Box): FakeCell | undefined => box.sheet.cells.get(cellAddress(box.top, box.left));
    return remote<Box>(
      queue,
      find,
      (box) => ({
        rowIndex: box.top,
        columnIndex: box.left,
        rowCount: box.rows,
        columnCount: box.columns,
        address: `${box.sheet.name}!${cellAddress(box.top, box.left)}`,
        get formulas() {
          return matrix(box, ({ formula }) => formula, "");
        },
        get values() {
          return matrix(box, ({ value }) => value, "");
        },
        get valueTypes() {
          return matrix(box, ({ value }) => (errors.test(String(value)) ? "Error" : "Other"), "Empty");
        },
        get hasSpill() {
          const spills = matrix(box, ({ anchor }) => anchor !== undefined, false).flat();
          return spills.includes(true) ? (spills.includes(false) ? null : true) : false;
        },
      }),
      (sure) => ({
        worksheet: remote(
          queue,
          () => sure().sheet,
          ({ name }) => ({ name }),
          (sheet) => ({
            protection: remote(queue, sheet, ({ isProtected }) => ({ protected: isProtected })),
          }),
        ),
        format: {
          protection: remote(queue, sure, (box) => ({ locked: one(box)?.unlocked !== true })),
        },
        getSpillParentOrNullObject: () =>
          this.#range(() => {
            const anchor = one(sure())?.anchor;
            return anchor === undefined ? undefined : this.#box(sure().sheet, anchor);
          }),
        getSpillingToRangeOrNullObject: () =>
          this.#range(() => {
            const { sheet, top, left } = sure();
            const own = cellAddress(top, left);
            const filled = [...sheet.cells].filter(([, { anchor }]) => anchor === own).map(([at]) => at);
            const boxes = filled.map((address) => this.#box(sheet, address));
            if (boxes.length === 0) return undefined;
            const rows = Math.max(...boxes.map((box) => box.top)) - top + 1;
            const columns = Math.max(...boxes.map((box) => box.left)) - left + 1;
            return { sheet, top, left, rows, columns };
          }),
        select: () => {
          queue.add(() => {
            const box = sure();
            this.shown = `${box.sheet.name}!${cellAddress(box.top, box.left)}`;
          });
        },
      }),
      (box, field, value) => {
        this.#write(box, field, value as unknown[][]);
      },
    );
  }

  #write(box: Box, field: string, rows: readonly (readonly unknown[])[]): void {
    this.#each(box, (address, r, c) => {
      const cell = box.sheet.cells.get(address);
      if (box.sheet.isProtected && cell?.unlocked !== true) throw new ExcelError("AccessDenied");
      if (cell?.anchor !== undefined && cell.anchor !== address) throw new ExcelError("InvalidOperation");
      const content = rows[r]?.[c];
      this.written.push([`${box.sheet.name}!${address}`, content]);
      const text = typeof content === "string" && content.startsWith("'") ? content.slice(1) : content;
      const value = field === "formulas" ? cell?.value : text;
      box.sheet.cells.set(address, { ...cell, formula: text, value });
    });
  }

  #table({ name, sheet, area, columns }: FakeTable): object {
    const home = () => this.sheets.find((candidate) => candidate.name === sheet);
    return item(() => ({ name, showHeaders: true, showTotals: false }), {
      getRange: () =>
        this.#range(() => {
          const found = home();
          return found && this.#box(found, area);
        }),
      worksheet: remote(this.queue, home, (found) => ({ name: found.name })),
      columns: this.#collection(() => columns.map((column) => item(() => ({ name: column })))),
    });
  }

  #parts(): Fields {
    return {
      getByNamespace: (namespace: string) =>
        this.#collection(() =>
          this.parts
            .filter((part) => part.namespace === namespace)
            .map((part) =>
              item(() => ({ id: part.id }), {
                getXml: () => {
                  const result: { value?: string } = {};
                  this.queue.add(() => {
                    result.value = part.xml;
                  });
                  return result;
                },
                delete: () => {
                  this.queue.add(() => {
                    const place = this.parts.indexOf(part);
                    if (place < 0) throw new ExcelError("ItemNotFound");
                    this.parts.splice(place, 1);
                  });
                },
              }),
            ),
        ),
      add: (xml: string) => {
        this.queue.add(() => {
          this.part(/xmlns="([^"]*)"/.exec(xml)?.[1] ?? "", xml);
        });
      },
    };
  }
}
