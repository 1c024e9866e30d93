import { placesOf, storedArea } from "../../engine/plan/formula-cells.js";
import { Grid } from "../../engine/grid.js";
import { lostForInstruments } from "../../engine/guard/lost-for-instruments.js";
import { alikeValues, elementAt, Values, type FormulaValue } from "../../engine/values.js";
import { cellAddress } from "../../cells/a1.js";
import { nameKey } from "../../instruments/name.js";
import type { Formula, WorkbookModel } from "../../workbook/model.js";
import type { CalculatedFormula } from "../univer/result-interceptor.js";
import { placeKey, type Position, positionKey } from "../../cells/place.js";
import type { UniverBook } from "../univer/univer-book.js";

/** A formula with a stored result that lacks an instrument here. */
interface Kept {
  readonly place: Position;
  readonly formula: Formula;
  readonly missing: readonly string[];
  /** Its inputs when the workbook was opened. */
  readonly inputs: readonly FormulaValue[] | undefined;
  /** Whether its cell currently shows the stored result. */
  readonly isShown: boolean;
}

/** Cells that keep their stored values, and why. */
export interface KeptNumber {
  readonly sheet: string;
  readonly address: string;
  /** Number of cells that the formula fills. */
  readonly cells: number;
  readonly missing: readonly string[];
}

/**
 * Stored values that would become errors only because an instrument is missing. Cells show them as long as they are
 * right: until someone edits the formula or its inputs, or asks to recalculate without the instrument.
 */
export class KeptNumbers {
  readonly #kept = new Map<string, Kept>();
  readonly #asked = new Set<string>();
  #isOpening = true;
  /** Created on demand: most workbooks lack no instruments. */
  #file: ReturnType<typeof fileOf> | undefined;

  /** @param formulaAt the current formula of a cell, without "=" */
  constructor(
    private readonly model: WorkbookModel,
    private readonly opened: UniverBook["formulas"],
    private readonly formulaAt: (place: Position) => string | undefined,
  ) {}

  /** The workbook is open: from now on changes are edits. */
  isOpen(): void {
    this.#isOpening = false;
  }

  /** Whether any formula may have to keep its stored value. */
  get isNeeded(): boolean {
    return this.#isOpening || this.#kept.size > 0;
  }

  /** The cells that currently show stored values. */
  get all(): readonly KeptNumber[] {
    return [...this.#kept.values()].flatMap((kept) => {
      const { place, formula, missing } = kept;
      if (!this.#isShown(kept)) return [];
      const sheet = this.model.sheets[place.sheet]?.name ?? "";
      const cells = placesOf(storedArea({ ...place, formula })).length;
      return { sheet, address: cellAddress(place.row, place.column), cells, missing };
    });
  }

  /** The missing instruments of a formula whose cell shows its stored value; undefined for any other cell. */
  missingFor(place: Position): readonly string[] | undefined {
    const kept = this.#kept.get(positionKey(place));
    return kept && this.#isShown(kept) ? kept.missing : undefined;
  }

  /** These formulas are about to be recalculated on request, not because a cell has changed. */
  ask(places: readonly Position[]): void {
    for (const place of places) this.#asked.add(positionKey(place));
  }

  /** @returns the value that its cell shows instead; undefined for the calculated value */
  see(place: Position, { missing, value, inputs }: CalculatedFormula): FormulaValue | undefined {
    const key = positionKey(place);
    const isAsked = this.#asked.delete(key);
    const before = this.#kept.get(key);
    if (!before && (missing.length === 0 || !this.#isOpening)) return undefined;
    const { stored, formulas } = (this.#file ??= fileOf(this.model));
    const formula = formulas.get(key);
    if (before) this.#kept.set(key, { ...before, isShown: false });
    if (!formula || !this.#isAsOpened(place)) return undefined;
    // Recalculating on request while the instrument is still missing means that the stored value is no longer wanted.
    if (isAsked && before?.isShown && share(before.missing, missing)) {
      this.#kept.delete(key);
      return undefined;
    }
    const now = inputs();
    // While a workbook is opening, cells filled by other formulas may still be empty.
    if (!this.#isOpening && !alikeInputs(before?.inputs, now)) return undefined;
    if (missing.length === 0) this.#kept.delete(key);
    if (missing.length === 0 || !lostForInstruments({ ...place, formula }, value(), stored)) return undefined;
    this.#kept.set(key, { place, formula, missing, inputs: now, isShown: true });
    return numberOf({ ...place, formula }, stored);
  }

  #isShown({ place, isShown }: Kept): boolean {
    return isShown && this.#isAsOpened(place);
  }

  /** Neither edited nor overwritten. */
  #isAsOpened(place: Position): boolean {
    const live = this.opened[place.sheet]?.get(placeKey(place.row, place.column));
    return live !== undefined && "text" in live && live.text === `=${this.formulaAt(place) ?? ""}`;
  }
}

/** Stored values and formulas of the file, by place. */
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

/** Stored value of a formula, in all cells that it fills. */
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

/** Equal except for last digits; false if either is unknown. */
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
