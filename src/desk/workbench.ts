import { placeKey, type Position } from "../cells/place.js";
import { tokenize, tokenTypes } from "@borgar/fx/xlsx";
import { ILayoutService } from "@univerjs/preset-sheets-core";
import { unknownFunction } from "../engine/messages.js";
import { callsOurs } from "../formulas/formula-text.js";
import type { Host } from "../pane/ports.js";
import { Emitter } from "../pane/source.js";
import { interceptResults } from "./univer/result-interceptor.js";
import type { ReadEntry } from "./typing/entered-cell.js";
import { handleEnterAndTab } from "./typing/entry-keys.js";
import { ErrorMessages } from "./univer/error-messages.js";
import { keepFocusInFormulaBar } from "./univer/formula-bar.js";
import { loadFunctions, type FunctionsBundle } from "./book/functions-bundle.js";
import { deskHost } from "./host/host.js";
import { keepSpelling } from "./typing/kept-spelling.js";
import { closeStaleAutocomplete } from "./univer/autocomplete.js";
import { cacheDependencies } from "./univer/dependency-cache.js";
import { protectEntries } from "./univer/late-results.js";
import { whyKept } from "./page/missing-notice.js";
import { OpenBook } from "./book/open-book.js";
import { pasteAsTyped } from "./typing/pasting.js";
import { conventionsOf } from "./typing/locale-conventions.js";
import { Sheet } from "./univer/sheet.js";
import { typedValue } from "./typing/typed-value.js";
import { interpretEntries } from "./typing/typing.js";
import { watchFields } from "./typing/refused-input.js";
import { startUniver } from "./univer/univer.js";
import { sheetId } from "./univer/univer-names.js";
import { explainErrors, explainKept, watch, type CellOfSheet, type SheetEvents } from "./univer/watch.js";

/** The sheet with our functions: the part of the desk that is slow to load. */
export class Workbench {
  /** Events of the sheet. */
  readonly events: SheetEvents;
  #book: OpenBook | undefined;
  /** Another cell is selected, or the value of the selected one may have changed. */
  readonly #selected = new Emitter();

  private constructor(
    readonly sheet: Sheet,
    private readonly bundle: FunctionsBundle,
    private readonly messages: ErrorMessages,
  ) {
    this.events = watch(sheet);
    this.events.selected.on(this.#selected.emit);
    // The pane is told once the edit has been calculated.
    this.events.edited.on(() => void sheet.settled().then(this.#selected.emit));
    const placeOf = (at: CellOfSheet): Position | undefined => sheet.placeOf(at.sheet, at.row, at.column);
    explainErrors(sheet, (at) => {
      const place = placeOf(at);
      return place && this.#explain(place);
    });
    explainKept(sheet, (at) => {
      const place = placeOf(at);
      return place && this.#whyKept(place);
    });
  }

  /** @param container filled by the sheet */
  static async start(container: HTMLElement): Promise<Workbench> {
    const bundle = await loadFunctions();
    const messages = new ErrorMessages();
    const engine = startUniver(container, bundle.functions, messages);
    closeStaleAutocomplete(container, engine);
    keepFocusInFormulaBar(container, engine);
    handleEnterAndTab(engine);
    keepSpelling(engine);
    cacheDependencies(engine);
    protectEntries(engine);
    const bench = new Workbench(new Sheet(engine), bundle, messages);
    bench.events.refused.on(watchFields(container));
    interceptResults(engine, bundle.functions, {
      isNeeded: () => bench.#book?.numbers.isNeeded ?? false,
      intercept: ({ unit, sheet, row, column }, calculated) => {
        const { data } = bench.#book?.univer ?? {};
        return unit === data?.id
          ? bench.#book?.numbers.see({ sheet: data.sheetOrder.indexOf(sheet), row, column }, calculated)
          : undefined;
      },
    });
    const reader = (): ReadEntry => bench.#reader();
    interpretEntries(engine, reader);
    pasteAsTyped(engine, reader);
    return bench;
  }

  /**
   * Reads a file; the open workbook stays as it is.
   *
   * @throws WorkbookError with the reason why a file is refused
   */
  read(name: string, bytes: Uint8Array): Promise<OpenBook> {
    return OpenBook.read(name, bytes, this.sheet, this.bundle);
  }

  /** Replaces the open workbook. */
  async show(book: OpenBook): Promise<void> {
    this.messages.clear();
    this.#book = book;
    await book.show();
  }

  /** Moves the focus to the sheet. */
  focus(): void {
    this.sheet.engine.univer.__getInjector().get<ILayoutService>(ILayoutService).focus();
  }

  /** A host of the pane for the open workbook. */
  hostOf(book: OpenBook): Host {
    return deskHost(book, this.sheet, this.bundle, this.#selected);
  }

  /** Explanation of the selected cell; undefined if there is none. */
  explainSelected(): string | undefined {
    const place = this.sheet.selected();
    return place && this.#explain(place);
  }

  /** Interprets typed text in the browser's locale and the date system of the open workbook. */
  #reader(): ReadEntry {
    const conventions = conventionsOf(navigator.language, new Date());
    const since1904 = this.#book?.workbook.model.since1904 ?? false;
    return (text) => typedValue(text, conventions, since1904);
  }

  #explain(place: Position): string | undefined {
    const { value } = this.sheet.at(place);
    const kept = this.#whyKept(place);
    if (kept !== undefined) return kept;
    if (typeof value !== "object" || value === null) return undefined;
    const anchor = this.sheet.at(this.sheet.anchorOf(place)).formula ?? "";
    const { row, column } = place;
    const said = this.messages.at({ unit: this.sheet.unit, sheet: sheetId(place.sheet), row, column });
    if (said !== undefined && callsOurs(anchor, this.bundle.functions)) return `${value.error} ${said}`;
    return value.error === "#NAME?" ? this.#unknownIn(anchor) : undefined;
  }

  /** Why a cell shows its stored value. */
  #whyKept(place: Position): string | undefined {
    const missing = this.#book?.numbers.missingFor(this.sheet.anchorOf(place));
    if (missing && this.#book) return whyKept(missing, this.#book.hasUnreadableInstruments);
    const live = this.#book?.univer.formulas[place.sheet]?.get(placeKey(place.row, place.column));
    return live && "kept" in live && this.sheet.at(place).formula === undefined
      ? `${live.kept} The value that the file has is shown.`
      : undefined;
  }

  /** Functions that Univer gets wrong count as unknown here: no result is better than a wrong one. */
  #unknownIn(formula: string): string | undefined {
    const { functions } = this.bundle;
    const unknown = tokenize(formula).find(
      ({ type, value }) =>
        type === tokenTypes.FUNCTION &&
        !functions.find(value) &&
        !this.sheet.engine.knows(value.toUpperCase()),
    );
    return unknown && unknownFunction(unknown.value.toUpperCase());
  }
}
