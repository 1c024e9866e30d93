import { sameArea } from "../cells/area.js";
import type { Engine } from "./engine.js";
import { addressOf } from "./references/address.js";
import type { Book } from "./references/book.js";
import type { Surroundings } from "./references/surroundings.js";
import { type Evaluated, Evaluation, seenFromCell, isDoubtful } from "./evaluation.js";
import { placesOf, type FormulaCell, storedArea } from "./plan/formula-cells.js";
import { fromCell, type Grid } from "./grid.js";
import { type Guard, tellsNothing } from "./guard/guard.js";
import type { Landing } from "./landing.js";
import { dependsOnLocale } from "./guard/localised-text.js";
import { lostForInstruments } from "./guard/lost-for-instruments.js";
import {
  cannotCalculate,
  circular,
  dependsOnKept,
  inCycle,
  instrumentMissing,
  languageUnsure,
  noReason,
  severalValues,
} from "./messages.js";
import { type Plan, readsOf } from "./plan/plan.js";
import { localeDependenceOf } from "./references/trusted-functions.js";
import { Taint } from "./plan/taint.js";
import { type CellTest, InterpreterMissing } from "./interpreter.js";
import {
  alikeValues,
  FormulaError,
  elementAt,
  identical,
  LAST_DIGITS,
  Values,
  type FormulaValue,
  type PositionedArea,
} from "./values.js";

export interface CalculationInput {
  readonly formulas: readonly FormulaCell[];
  readonly plan: Plan;
  readonly book: Book;
  readonly engine: Engine;
  readonly guard: Guard;
  /** Why a formula is not to be evaluated; undefined for those that are. */
  readonly frozen: (formula: number) => string | undefined;
  /** The workbook was saved without being calculated, so stored values of formulas other than ours prove nothing. */
  readonly uncalculated: boolean;
  /** The workbook as it was. */
  readonly stored: Grid;
  /** A second copy, to be changed. */
  readonly grid: Grid;
  readonly landing: Landing;
  /** Names of instruments that functions have looked for in vain since the last call. */
  readonly instrumentsInVain: () => readonly string[];
  readonly onProgress: (done: number) => void;
}

/** Result of a calculation. */
export interface Calculated {
  /** Formulas that keep their stored values, and why. */
  readonly kept: ReadonlyMap<number, string>;
  /** Those kept because an instrument is missing. */
  readonly lacking: ReadonlySet<number>;
  /** Cells read by formulas with dynamic references. */
  readonly found: ReadonlyMap<number, readonly PositionedArea[]>;
  /** Formulas of which not even those cells are known. */
  readonly unknown: ReadonlySet<number>;
  /** Formulas that ours need and whose values differ from the stored ones; the stored ones are used instead. */
  readonly distrusted: ReadonlyMap<number, FormulaValue>;
}

const PROGRESS_STEP = 250;

/**
 * Evaluates the formulas of a plan, each after those it needs, and writes their values to the grid. @throws
 * InterpreterMissing
 */
export function calculate(input: CalculationInput): Calculated {
  const { plan, formulas, engine, book, guard, frozen, uncalculated, stored, grid, landing } = input;
  const isSubtotal = subtotalsOf(input);
  const isReached = (formula: number): boolean => plan.patched[formula] === 1;
  if (!uncalculated) {
    const before = surroundings(input, stored, (formula) => {
      const cell = formulas[formula];
      return cell && storedArea(cell);
    });
    const untaken = (formula: number): boolean => frozen(formula) !== undefined || plan.cycles.has(formula);
    guard.tryAll(
      plan.order.filter((formula) => isReached(formula) && !untaken(formula)),
      before,
      isSubtotal,
    );
  }
  const now = new Evaluation(
    engine,
    grid,
    isSubtotal,
    surroundings(input, grid, (formula) => landing.areas.get(formula)),
  );
  const kept = new Map<number, string>();
  const lacking = new Set<number>();
  const found = new Map<number, readonly PositionedArea[]>();
  const unknown = new Set<number>();
  const distrusted = new Map<number, FormulaValue>();
  const taint = new Taint(plan.graph, formulas.length);

  for (const [formula, { path: way }] of plan.cycles)
    if (isReached(formula)) taint.keep(formula, way[0] ?? formula);
  for (const [done, formula] of plan.order.entries()) {
    if (done % PROGRESS_STEP === 0) input.onProgress(done);
    const cell = formulas[formula];
    if (!cell) continue;
    let reason = reasonToKeep(formula);
    if (reason === undefined) reason = attempt(formula, cell);
    else if (cell.template.isDynamic) look(formula, cell);
    if (reason === undefined) {
      if (hasMoved(formula, cell)) taint.move(formula);
      continue;
    }
    kept.set(formula, reason);
    landing.restore(formula, cell, stored);
    // Our results depend on instruments as well, so nobody can tell whether a kept one is still right. A formula that
    // lacks its instrument is as right as before, as long as nothing that it reads has changed.
    const isDoubtful = cell.template.own && !lacking.has(formula);
    if (isReached(formula) && !plan.cycles.has(formula) && (isDoubtful || taint.below(formula)))
      taint.keep(formula, taint.keptBelow(formula) ?? formula);
  }
  input.onProgress(plan.order.length);
  return { kept, lacking, found, unknown, distrusted };

  /** Why a formula keeps its value whatever its result would be. */
  function reasonToKeep(formula: number): string | undefined {
    const obstacle = frozen(formula);
    if (obstacle !== undefined) return obstacle;
    const cycle = plan.cycles.get(formula);
    if (cycle) return isReached(formula) ? circular(addressAt(cycle.path[0] ?? formula)) : inCycle;
    const root = isReached(formula) ? taint.keptBelow(formula) : undefined;
    return root === undefined ? guard.of(formula).doubt : dependsOnKept(addressAt(root));
  }

  /** Finds the cells read by a formula that is not evaluated. */
  function look(formula: number, cell: FormulaCell): void {
    try {
      const { reads, isUnknown } = now.find(cell);
      found.set(formula, reads);
      if (isUnknown) unknown.add(formula);
    } catch (error) {
      if (error instanceof InterpreterMissing) throw error;
      unknown.add(formula);
    }
  }

  function attempt(formula: number, cell: FormulaCell): string | undefined {
    try {
      input.instrumentsInVain();
      const evaluated = now.run(cell);
      const missing = input.instrumentsInVain();
      if (cell.template.isDynamic) found.set(formula, evaluated.found);
      if (evaluated.isUnknown) unknown.add(formula);
      if (evaluated.value === undefined) return evaluated.withheld;
      if (missing.length > 0 && lostForInstruments(cell, evaluated.value, stored)) {
        lacking.add(formula);
        return instrumentMissing(missing);
      }
      return settle(formula, cell, evaluated, evaluated.value);
    } catch (error) {
      if (error instanceof InterpreterMissing) throw error;
      if (cell.template.isDynamic) look(formula, cell);
      return cannotCalculate(error);
    }
  }

  /** Writes a value to its cells, unless there is a reason not to. */
  function settle(
    formula: number,
    cell: FormulaCell,
    evaluated: Evaluated,
    value: FormulaValue,
  ): string | undefined {
    const { own, isTrusted: sure, mixed, volatile } = cell.template;
    const doubtful = isDoubtful(cell, value);
    if (doubtful) return doubtful === "name" ? cannotCalculate() : severalValues;
    if (!isReached(formula)) {
      const differs = cell.stored !== null && !volatile && !comesOutAsStored(cell, value);
      // If the engine's result cannot be trusted, the value shown in the cell counts.
      if (differs && !sure && !uncalculated) {
        distrusted.set(formula, value);
        landing.restore(formula, cell, stored);
      } else landing.land(formula, cell, value);
      return undefined;
    }
    const { reproduced } = guard.of(formula);
    if (!own && reproduced !== undefined && same(reproduced, value)) {
      // Its inputs did not change its result, so keep it to the last digit.
      landing.restore(formula, cell, stored);
      return undefined;
    }
    if (!uncalculated && !tellsNothing(cell) && mayBeOtherwise(cell, evaluated, value)) return languageUnsure;
    const first = elementAt(value, 0, 0);
    if (own && !sure && first instanceof FormulaError && isUnexplained(first, readsOfAll(cell, evaluated)))
      return noReason(first.error);
    // Other programs add up what surrounds our call in another order.
    if (own && mixed && !(value instanceof Values) && alikeValues(value, fromCell(cell.stored), LAST_DIGITS))
      landing.restore(formula, cell, stored);
    else landing.land(formula, cell, value);
    return undefined;
  }

  /** Whether the result could differ in the language of the author's spreadsheet program. */
  function mayBeOtherwise(cell: FormulaCell, evaluated: Evaluated, value: FormulaValue): boolean {
    const written = evaluated.formula;
    const speech = written ? localeDependenceOf(written.tokens) : cell.template.localeDependence;
    if (!speech.shows && speech.hidden.length === 0) return false;
    const reads = readsOfAll(cell, evaluated);
    return dependsOnLocale(cell, written ?? seenFromCell(cell), speech, reads, value, grid, stored);
  }

  function readsOfAll(cell: FormulaCell, { found: cells }: Evaluated): PositionedArea[] {
    return [...readsOf(cell).map(({ area }) => area), ...cells];
  }

  /** An error without a message that does not come from any cell read. */
  function isUnexplained(value: FormulaError, reads: readonly PositionedArea[]): boolean {
    if (value.message !== "") return false;
    return !reads.some(({ sheet, ...area }) => {
      const bottom = Math.min(area.bottom, grid.height - 1);
      const right = Math.min(area.right, grid.width - 1);
      return placesOf({ ...area, bottom, right }).some(([row, column]) => {
        const read = grid.get(sheet, row, column);
        return read instanceof FormulaError && read.error === value.error;
      });
    });
  }

  function comesOutAsStored(cell: FormulaCell, value: FormulaValue): boolean {
    return placesOf(storedArea(cell)).every(([row, column]) =>
      alikeValues(
        elementAt(value, row - cell.row, column - cell.column) ?? 0,
        stored.get(cell.sheet, row, column),
      ),
    );
  }

  function hasMoved(formula: number, cell: FormulaCell): boolean {
    if (cell.formula.kind === "plain") return !isAsBefore(cell.row, cell.column);
    const before = storedArea(cell);
    if (!sameArea(landing.areas.get(formula) ?? before, before)) return true;
    return !placesOf(before).every(([row, column]) => isAsBefore(row, column));

    function isAsBefore(row: number, column: number): boolean {
      return identical(grid.get(cell.sheet, row, column), stored.get(cell.sheet, row, column));
    }
  }

  function addressAt(formula: number): string {
    const cell = formulas[formula];
    return cell ? addressOf(cell, book) : "";
  }
}

function same(a: FormulaValue, b: FormulaValue): boolean {
  if (!(a instanceof Values) || !(b instanceof Values))
    return !(a instanceof Values) && !(b instanceof Values) && identical(a, b);
  return (
    a.height === b.height &&
    a.width === b.width &&
    a.rows.every((row, r) => row.every((value, c) => identical(value, b.at(r, c))))
  );
}

function subtotalsOf({ formulas, plan }: CalculationInput): CellTest {
  if (!formulas.some(({ template }) => template.subtotals)) return () => false;
  return (sheet, row, column) => {
    const formula = plan.outputs.at(sheet, row, column);
    return formula !== undefined && (formulas[formula]?.template.subtotals ?? false);
  };
}

function surroundings(
  { plan, formulas, book }: CalculationInput,
  { height, width }: Grid,
  areaOf: (formula: number) => ReturnType<Surroundings["spilledFrom"]>,
): Surroundings {
  return {
    book,
    height,
    width,
    spilledFrom: (sheet, row, column) => {
      const formula = plan.outputs.at(sheet, row, column);
      const cell = formula === undefined ? undefined : formulas[formula];
      const isAnchor = cell?.row === row && cell.column === column && cell.formula.kind !== "plain";
      return isAnchor && formula !== undefined ? areaOf(formula) : undefined;
    },
  };
}
