import type { Area, CellChange, WorkbookModel } from "../workbook/model.js";
import type { Position } from "./book.js";
import { type FormulaCell, forEachCell, storedArea } from "./formula-cells.js";
import { type Grid, toCell } from "./grid.js";
import type { Landing } from "./landing.js";
import { differs, inLoop, leftAsItWas, storedValueUsed } from "./messages.js";
import type { Plan } from "./plan.js";
import type { CellAddress, CellErrorReport, Note, NoteKind } from "./recalculation.js";
import { alike, CellError, identical, type Scalar } from "./values.js";

/** What a finished calculation has to tell. */
export class Report {
  /**
   * @param failures formulas that turned out not to be evaluable, and why
   * @param stored the workbook as it was
   * @param grid the workbook as it is now
   */
  constructor(
    readonly model: WorkbookModel,
    readonly formulas: readonly FormulaCell[],
    readonly plan: Plan,
    readonly failures: ReadonlyMap<number, string>,
    readonly landing: Landing,
    readonly stored: Grid,
    readonly grid: Grid,
  ) {}

  /** Formulas whose new values belong in the workbook. */
  get patched(): readonly number[] {
    return this.plan.order.filter(
      (formula) => this.plan.patched[formula] === 1 && !this.failures.has(formula),
    );
  }

  changes(): CellChange[] {
    const changes = new Map<string, CellChange>();
    for (const number of this.patched) {
      const cell = this.formulas[number];
      if (!cell) continue;
      const { sheet, formula } = cell;
      const before = storedArea(cell);
      const now = this.#area(number, cell);
      const resized = formula.kind === "spill" && !sameArea(before, now);
      const visit = (row: number, column: number): void => {
        const value = this.grid.get(sheet, row, column);
        const anchor = row === cell.row && column === cell.column;
        if (identical(value, this.stored.get(sheet, row, column)) && !(anchor && resized)) return;
        changes.set(`${sheet},${row},${column}`, {
          ...this.#address({ sheet, row, column }),
          value: toCell(value),
          ...(anchor && resized ? { formula: { ...formula, area: now } } : {}),
        });
      };
      forEachCell(now, visit);
      if (resized) {
        forEachCell(before, (row, column) => {
          if (!changes.has(`${sheet},${row},${column}`)) visit(row, column);
        });
      }
    }
    return [...changes.values()];
  }

  errors(): CellErrorReport[] {
    return this.patched.flatMap((number) => {
      const cell = this.formulas[number];
      if (!cell?.template.own) return [];
      const found: CellErrorReport[] = [];
      forEachCell(this.#area(number, cell), (row, column) => {
        const value = this.grid.get(cell.sheet, row, column);
        if (value instanceof CellError) {
          const address = this.#address({ sheet: cell.sheet, row, column });
          found.push({ ...address, code: value.error, message: value.message });
        }
      });
      return found;
    });
  }

  /**
   * @param frozen why formulas were left out of the plan, where it was not for their own text
   * @param lacking those of the failures that are for want of an instrument
   */
  notes(frozen: ReadonlyMap<number, string>, lacking: ReadonlySet<number>): Note[] {
    const notes: Note[] = [];
    const note = (number: number, kind: NoteKind, message: string): void => {
      const cell = this.formulas[number];
      if (cell) notes.push({ ...this.#address(cell), kind, message });
    };
    const setAside = (number: number, reason: string): void => {
      if (this.plan.patched[number] === 1) note(number, "left-as-it-was", leftAsItWas(reason));
      else if (this.plan.needed[number] === 1) note(number, "stored-value-used", storedValueUsed(reason));
    };
    for (const number of this.plan.kept) {
      setAside(number, this.formulas[number]?.template.obstacle ?? frozen.get(number) ?? inLoop);
    }
    for (const [number, reason] of this.failures)
      if (lacking.has(number)) note(number, "instrument-missing", leftAsItWas(reason));
      else setAside(number, reason);
    for (const number of this.plan.order) {
      const difference = this.#difference(number);
      if (difference) note(number, "differs-from-stored", differs(...difference));
    }
    for (const [number, error] of this.landing.blocked) {
      const own = this.formulas[number]?.template.own ?? false;
      if (this.plan.patched[number] === 1 && !own) note(number, "no-room", error.message);
    }
    return notes;
  }

  /** For a formula that ours depend on, the first value that does not come out as stored: new and old. */
  #difference(number: number): [string, string] | undefined {
    const cell = this.formulas[number];
    const expected = this.plan.needed[number] === 1 && this.plan.patched[number] !== 1;
    if (!cell || !expected || cell.template.volatile || this.failures.has(number)) return undefined;
    // A file made by a program need not have values beside its formulas.
    if (cell.stored === null) return undefined;
    let difference: [string, string] | undefined;
    forEachCell(storedArea(cell), (row, column) => {
      const fresh = this.grid.get(cell.sheet, row, column);
      const stored = this.stored.get(cell.sheet, row, column);
      if (!alike(fresh, stored)) difference ??= [shown(fresh), shown(stored)];
    });
    return difference;
  }

  #area(number: number, cell: FormulaCell): Area {
    return this.landing.areas.get(number) ?? storedArea(cell);
  }

  #address({ sheet, row, column }: Position): CellAddress {
    return { sheet: this.model.sheets[sheet]?.name ?? "", row, column };
  }
}

export function sameArea(a: Area | undefined, b: Area | undefined): boolean {
  return a?.top === b?.top && a?.left === b?.left && a?.bottom === b?.bottom && a?.right === b?.right;
}

function shown(value: Scalar): string {
  if (value === null) return "nothing";
  if (value instanceof CellError) return value.error;
  return typeof value === "string" ? `"${value}"` : String(value).toUpperCase();
}
