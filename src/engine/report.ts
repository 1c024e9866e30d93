import { type Area, forEachCell, sameArea } from "../cells/area.js";
import type { CellChange, WorkbookModel } from "../workbook/model.js";
import { type Position, positionNumber, type SheetPlace } from "../cells/place.js";
import type { Calculated } from "./calculation.js";
import { type FormulaCell, storedArea } from "./plan/formula-cells.js";
import { type Grid, toCell } from "./grid.js";
import type { Landing } from "./landing.js";
import { differsFromStored, differsUnsure, leftAsItWas, storedValueUsed } from "./messages.js";
import type { Plan } from "./plan/plan.js";
import type { CellErrorReport, CellNote, NoteKind } from "./recalculation.js";
import { shownScalar } from "./guard/shown.js";
import { alikeValues, FormulaError, elementAt, identical } from "./values.js";

export interface ReportInput {
  readonly model: WorkbookModel;
  readonly formulas: readonly FormulaCell[];
  readonly plan: Plan;
  readonly calculated: Calculated;
  readonly landing: Landing;
  /** The workbook as it was. */
  readonly stored: Grid;
  /** The workbook as it is now. */
  readonly grid: Grid;
  readonly uncalculated: boolean;
}

/** Report of a finished calculation. */
export class CalculationReport {
  /** Formulas whose new values belong in the workbook. */
  readonly patched: readonly number[];
  readonly #told: ReportInput;

  constructor(told: ReportInput) {
    this.#told = told;
    const { plan, calculated } = told;
    this.patched = plan.order.filter(
      (formula) => plan.patched[formula] === 1 && !calculated.kept.has(formula),
    );
  }

  changes(): CellChange[] {
    const { model, formulas, grid, stored } = this.#told;
    const changes = new Map<number, CellChange>();
    for (const number of this.patched) {
      const cell = formulas[number];
      if (!cell) continue;
      const { sheet, formula } = cell;
      const name = model.sheets[sheet]?.name ?? "";
      const put = (row: number, column: number, area: Area | undefined): void => {
        const value = grid.get(sheet, row, column);
        if (area === undefined && identical(value, stored.get(sheet, row, column))) return;
        const change = { sheet: name, row, column, value: toCell(value) };
        changes.set(
          positionNumber(sheet, row, column),
          area ? { ...change, formula: { ...formula, area } } : change,
        );
      };
      if (formula.kind === "plain") {
        put(cell.row, cell.column, undefined);
        continue;
      }
      const before = storedArea(cell);
      const now = this.#area(number, cell);
      const resized = formula.kind === "spill" && !sameArea(before, now);
      const visit = (row: number, column: number): void => {
        const isAnchor = row === cell.row && column === cell.column;
        put(row, column, resized && isAnchor ? now : undefined);
      };
      forEachCell(now, visit);
      if (resized) {
        forEachCell(before, (row, column) => {
          if (!changes.has(positionNumber(sheet, row, column))) visit(row, column);
        });
      }
    }
    return [...changes.values()];
  }

  errors(): CellErrorReport[] {
    const found: CellErrorReport[] = [];
    for (const number of this.patched) {
      const cell = this.#told.formulas[number];
      if (!cell?.template.own) continue;
      forEachCell(this.#area(number, cell), (row, column) => {
        const value = this.#told.grid.get(cell.sheet, row, column);
        if (value instanceof FormulaError) {
          const address = this.#address({ sheet: cell.sheet, row, column });
          found.push({ ...address, code: value.error, message: value.message });
        }
      });
    }
    return found;
  }

  cutOff(): SheetPlace[] {
    const { landing, formulas } = this.#told;
    return [...landing.cutOff].flatMap((number) => {
      const cell = formulas[number];
      return cell ? [this.#address(cell)] : [];
    });
  }

  notes(): CellNote[] {
    const { formulas, plan, calculated, landing } = this.#told;
    const notes: CellNote[] = [];
    const note = (number: number, kind: NoteKind, message: string): void => {
      const cell = formulas[number];
      if (cell) notes.push({ ...this.#address(cell), kind, message });
    };
    for (const [number, reason] of calculated.kept) {
      const isUnknown = calculated.unknown.has(number) && plan.needed[number] !== 1;
      if (calculated.lacking.has(number)) note(number, "instrument-missing", leftAsItWas(reason));
      else if (plan.patched[number] === 1 || isUnknown) note(number, "left-as-it-was", leftAsItWas(reason));
      else if (plan.needed[number] === 1) note(number, "stored-value-used", storedValueUsed(reason));
    }
    for (const number of plan.order) {
      const difference = this.#difference(number);
      if (difference) note(number, "differs-from-stored", difference);
    }
    for (const [number, error] of landing.blocked) {
      const own = formulas[number]?.template.own ?? false;
      if (plan.patched[number] === 1 && !own) note(number, "no-room", error.message);
    }
    return notes;
  }

  /** For a formula that ours depend on: its first value that differs from the stored one. */
  #difference(number: number): string | undefined {
    const { formulas, plan, calculated, stored, grid, uncalculated } = this.#told;
    const cell = formulas[number];
    const expected = plan.needed[number] === 1 && plan.patched[number] !== 1 && !uncalculated;
    if (!cell || !expected || cell.template.volatile || calculated.kept.has(number)) return undefined;
    // A file written by a program may have no values for its formulas.
    if (cell.stored === null) return undefined;
    const value = calculated.distrusted.get(number);
    const used = value === undefined;
    let difference: string | undefined;
    forEachCell(storedArea(cell), (row, column) => {
      const fresh = used
        ? grid.get(cell.sheet, row, column)
        : elementAt(value, row - cell.row, column - cell.column);
      const before = stored.get(cell.sheet, row, column);
      if (alikeValues(fresh ?? 0, before)) return;
      difference ??= used
        ? differsFromStored(shownScalar(fresh), shownScalar(before))
        : storedValueUsed(differsUnsure(shownScalar(fresh), shownScalar(before)));
    });
    return difference;
  }

  #area(number: number, cell: FormulaCell): Area {
    return this.#told.landing.areas.get(number) ?? storedArea(cell);
  }

  #address({ sheet, row, column }: Position): SheetPlace {
    return { sheet: this.#told.model.sheets[sheet]?.name ?? "", row, column };
  }
}
