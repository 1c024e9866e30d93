import { cellAddress } from "../../cells/a1.js";
import { partNamespace } from "../../instruments/part.js";
import { storedInstruments } from "../../instruments/stored.js";
import type { FunctionsPort } from "../../pane/ports/functions-port.js";
import { Emitter } from "../../pane/source.js";
import type { CellChange } from "../../workbook/model.js";
import { openWorkbook, type PatchExtras, type Workbook } from "../../workbook/workbook.js";
import type { FunctionsBundle } from "./functions-bundle.js";
import { changesSince } from "./changes.js";
import { univerDefinedNames } from "./defined-names.js";
import { KeptNumbers } from "./kept-numbers.js";
import { LiveFormulas } from "../univer/live-formulas.js";
import { Parts } from "./parts.js";
import type { Sheet } from "../univer/sheet.js";
import { univerBook, type UniverBook } from "../univer/univer-book.js";

/** Edits of a workbook since it was opened. */
export interface Edits {
  readonly changes: readonly CellChange[];
  readonly extras: Required<Pick<PatchExtras, "customXml" | "droppedCustomXml">>;
}

/** A formula that the sheet cannot calculate, and why. */
export interface KeptFormula {
  readonly sheet: string;
  readonly address: string;
  readonly why: string;
}

let opened = 0;

/** The workbook on the page: its file, and the sheet in which it is edited. */
export class OpenBook {
  /** Something other than cell contents has changed that belongs in the file. */
  readonly edited = new Emitter();
  readonly parts: Parts;
  /** Values that would be lost only because an instrument is missing. */
  readonly numbers: KeptNumbers;
  #rewrites = false;

  private constructor(
    readonly name: string,
    /** The file as it was opened. */
    readonly bytes: Uint8Array,
    readonly workbook: Workbook,
    readonly univer: UniverBook,
    private readonly sheet: Sheet,
    private readonly bundle: FunctionsBundle,
  ) {
    this.parts = new Parts(workbook.customXml(partNamespace), this.edited);
    this.numbers = new KeptNumbers(workbook.model, univer.formulas, (place) => sheet.at(place).formula);
  }

  /**
   * Reads a file; the page stays unchanged.
   *
   * @throws WorkbookError for a file that is refused
   */
  static async read(
    name: string,
    bytes: Uint8Array,
    sheet: Sheet,
    bundle: FunctionsBundle,
  ): Promise<OpenBook> {
    const workbook = await openWorkbook(bytes);
    const live = new LiveFormulas(workbook.model, bundle.functions, sheet.engine);
    const { model } = workbook;
    const book = univerBook(`book${++opened}`, model, workbook.appearance(), live);
    const data = { ...book.data, resources: univerDefinedNames(model, bundle.functions) };
    const univer = { ...book, data };
    return new OpenBook(name, bytes, workbook, univer, sheet, bundle);
  }

  /** Shows it on the page. Its formulas use its own instruments. */
  async show(): Promise<void> {
    handOver(this.parts.texts, this.bundle.forPane);
    await this.sheet.show(this.univer);
    this.numbers.isOpen();
  }

  /** The next save rewrites our formulas that spreadsheet programs do not bind to our functions. */
  rewrite(): void {
    this.#rewrites = true;
    this.edited.emit();
  }

  /** Whether it contains instruments of which none can be read here. */
  get hasUnreadableInstruments(): boolean {
    return storedInstruments(this.parts.texts).set === undefined;
  }

  /** Formulas that show their stored values. */
  get kept(): readonly KeptFormula[] {
    return this.workbook.model.sheets.flatMap(({ name }, index) =>
      [...(this.univer.formulas[index] ?? [])].flatMap(([key, live]) => {
        const [row = 0, column = 0] = key.split(",").map(Number);
        return "kept" in live ? [{ sheet: name, address: cellAddress(row, column), why: live.kept }] : [];
      }),
    );
  }

  /** Resolves when everything typed has been calculated: pending results belong in the file too. */
  async edits(): Promise<Edits> {
    const { workbook, univer, sheet, bundle } = this;
    await sheet.settled();
    return {
      changes: changesSince(workbook.model, univer, sheet, bundle.functions, this.#rewrites),
      extras: this.parts.extras,
    };
  }

  /** The file to save now. */
  async save(): Promise<Uint8Array> {
    const { changes, extras } = await this.edits();
    const isChanged = changes.length + extras.customXml.length + extras.droppedCustomXml.length > 0;
    return isChanged ? this.workbook.patch(changes, extras) : this.bytes;
  }
}

/** Passes a workbook's instruments to the functions before any cell needs them. */
function handOver(parts: readonly string[], functions: FunctionsPort): void {
  const { set, refused } = storedInstruments(parts);
  if (set) functions.use(set);
  else functions.refuse(refused.flatMap(({ problems }) => problems).join(" "));
}
