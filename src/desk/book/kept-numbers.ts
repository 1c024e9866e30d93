import { placesOf, storedArea } from "../../engine/plan/formula-cells.js";
import { Grid } from "../../engine/grid.js";
import { lostForInstruments } from "../../engine/guard/lost-for-instruments.js";
import { alikeValues, elementAt, Values, type FormulaValue } from "../../engine/values.js";
import { cellAddress } from "../../cells/a1.js";
import { nameKey } from "../../instruments/name.js";
import type { Formula, WorkbookModel } from "../../workbook/model.js";
import type { CalculatedFormula } from "../univer/calculated-cells.js";
import { placeKey, type Position, positionKey } from "../../cells/place.js";
import type { UniverBook } from "../univer/univer-book.js";

/** A formula whose result stands in the file, and which lacks an instrument here. */
interface Kept {
  readonly place: Position;
  readonly formula: Formula;
  readonly missing: readonly string[];
  /** What it was to be calculated from when the workbook was opened. */
  readonly inputs: readonly FormulaValue[] | undefined;
  /** Whether its cell shows the result now. */
  readonly isShown: boolean;
}

/** Cells that keep their numbers, and why. */
export interface KeptNumber {
  readonly sheet: string;
  readonly address: string;
  /** How many cells the formula fills. */
  readonly cells: number;
  readonly missing: readonly string[];
}

/**
 * The numbers of the file that would become errors only because an instrument is missing. Cells show them for as long as they are
 * right: until someone edits the formula or anything that it is calculated from, or asks for what it comes to without.
 */
export class KeptNumbers {
  readonly #kept = new Map<string, Kept>();
  readonly #asked = new Set<string>();
  #isOpening = true;
  /** Most workbooks lack nothing, and never need it. */
  #file: ReturnType<typeof fileOf> | undefined;

  /** @param formulaAt the formula of a cell as it is now, without "=" */
  constructor(
    private readonly model: WorkbookModel,
    private readonly opened: UniverBook["formulas"],
    private readonly formulaAt: (place: Position) => string | undefined,
  ) {}

  /** The workbook is open: from here on a change is somebody's edit. */
  isOpen(): void {
    this.#isOpening = false;
  }

  /** Whether any formula may have to keep its number. */
  get isNeeded(): boolean {
    return this.#isOpening || this.#kept.size > 0;
  }

  /** The cells that show numbers of the file now. */
  get all(): readonly KeptNumber[] {
    return [...this.#kept.values()].flatMap((kept) => {
      const { place, formula, missing } = kept;
      if (!this.#isShown(kept)) return [];
      const sheet = this.model.sheets[place.sheet]?.name ?? "";
      const cells = placesOf(storedArea({ ...place, formula })).length;
      return { sheet, address: cellAddress(place.row, place.column), cells, missing };
    });
  }

  /** Instruments that a formula lacks whose cell shows the number of the file; undefined for any other cell. */
  missingFor(place: Position): readonly string[] | undefined {
    const kept = this.#kept.get(positionKey(place));
    return kept && this.#isShown(kept) ? kept.missing : undefined;
  }

  /** These formulas are to be calculated because someone asks for it, and not for what stands in other cells. */
  ask(places: readonly Position[]): void {
    for (const place of places) this.#asked.add(positionKey(place));
  }

  /** @returns what its cell is to show; undefined for the value itself */
  see(place: Position, { missing, value, inputs }: CalculatedFormula): FormulaValue | undefined {
    const key = positionKey(place);
    const isAsked = this.#asked.delete(key);
    const before = this.#kept.get(key);
    if (!before && (missing.length === 0 || !this.#isOpening)) return undefined;
    const { stored, formulas } = (this.#file ??= fileOf(this.model));
    const formula = formulas.get(key);
    if (before) this.#kept.set(key, { ...before, isShown: false });
    if (!formula || !this.#isAsOpened(place)) return undefined;
    // Whoever has it calculated although what it lacked is still lacking does not want the number any more.
    if (isAsked && before?.isShown && share(before.missing, missing)) {
      this.#kept.delete(key);
      return undefined;
    }
    const now = inputs();
    // While a workbook is being opened, cells that other formulas fill may still be empty.
    if (!this.#isOpening && !alikeInputs(before?.inputs, now)) return undefined;
    if (missing.length === 0) this.#kept.delete(key);
    if (missing.length === 0 || !lostForInstruments({ ...place, formula }, value(), stored)) return undefined;
    this.#kept.set(key, { place, formula, missing, inputs: now, isShown: true });
    return numberOf({ ...place, formula }, stored);
  }

  #isShown({ place, isShown }: Kept): boolean {
    return isShown && this.#isAsOpened(place);
  }

  /** Neither edited nor written over. */
  #isAsOpened(place: Position): boolean {
    const live = this.opened[place.sheet]?.get(placeKey(place.row, place.column));
    return live !== undefined && "text" in live && live.text === `=${this.formulaAt(place) ?? ""}`;
  }
}

/** The values and formulas of the file, by place. */
function fileOf(model: WorkbookModel): {
  readonly stored: Grid;
  readonly formulas: ReadonlyMap<string, Formula>;
} {
  const formulas = new Map<string, Formula>();
  for (const [sheet, { cells }] of model.sheets.entries())
    for (const { row, column, formula } of cells)
      if (formula) formulas.set(positionKey({ sheet, row, column }), formula);
  return { stored: Grid.of(model), formulas };
}

/** What the file has for a formula, in all cells that it fills. */
function numberOf(cell: Position & { readonly formula: Formula }, stored: Grid): FormulaValue {
  const { top, left, bottom, right } = storedArea(cell);
  const lines = Array.from({ length: bottom - top + 1 }, (_, down) =>
    Array.from({ length: right - left + 1 }, (__, across) =>
      stored.get(cell.sheet, top + down, left + across),
    ),
  );
  return top === bottom && left === right ? (lines[0]?.[0] ?? null) : new Values(lines);
}

function share(names: readonly string[], others: readonly string[]): boolean {
  const keys = new Set(names.map(nameKey));
  return others.some((name) => keys.has(nameKey(name)));
}

/** Equal but for last digits; never where one of them cannot be told. */
function alikeInputs(
  before: readonly FormulaValue[] | undefined,
  now: readonly FormulaValue[] | undefined,
): boolean {
  return (
    before?.length === now?.length &&
    before !== undefined &&
    before.every((content, i) => alikeContents(content, now?.[i] ?? null))
  );
}

function alikeContents(a: FormulaValue, b: FormulaValue): boolean {
  if (!(a instanceof Values)) return !(b instanceof Values) && alikeValues(a, b);
  return (
    b instanceof Values &&
    a.height === b.height &&
    a.width === b.width &&
    a.rows.every((line, row) => line.every((value, column) => alikeValues(value, elementAt(b, row, column))))
  );
}
