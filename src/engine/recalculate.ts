import type { Area, WorkbookModel } from "../workbook/model.js";
import { Book } from "./book.js";
import { calculate } from "./calculation.js";
import type { CellFunctions } from "./cell-functions.js";
import { type FormulaCell, cellsOf, formulaCells, storedArea } from "./formula-cells.js";
import { Grid } from "./grid.js";
import { Landing } from "./landing.js";
import { unsettled } from "./messages.js";
import { makePlan, type Plan } from "./plan.js";
import type { Recalculation, RecalculationOptions } from "./recalculation.js";
import { Report, sameArea } from "./report.js";
import { Templates } from "./templates.js";
import { UniverEngine } from "./univer-engine.js";
import { identical } from "./values.js";

/** How often a new start may be necessary before formulas that never settle are given up. */
const MOST_PASSES = 8;

/**
 * Brings all formulas of a workbook that call our functions up to date, and all that depend on them.
 *
 * Formulas that these need are evaluated as well; all others count as the values stored for them.
 */
export function recalculate(
  model: WorkbookModel,
  functions: CellFunctions,
  options: RecalculationOptions = {},
): Recalculation {
  const book = new Book(model);
  const engine = new UniverEngine(book.sheetNames, functions);
  try {
    return withEngine(model, book, engine, functions, options);
  } finally {
    engine.dispose();
  }
}

function withEngine(
  model: WorkbookModel,
  book: Book,
  engine: UniverEngine,
  functions: CellFunctions,
  { onProgress }: RecalculationOptions,
): Recalculation {
  const formulas = formulaCells(model, new Templates(book, functions, engine));
  if (!formulas.some(({ template }) => template.own)) return nothing([]);

  const stored = Grid.of(model);
  const frozen = new Map<number, string>();
  let areas = storedAreas(formulas);
  let before = stored;
  for (let pass = 1; ; pass++) {
    const isFrozen = (formula: number): boolean =>
      formulas[formula]?.template.obstacle !== undefined || frozen.has(formula);
    const plan = makePlan(formulas, areas, isFrozen, model.iterates);
    if (plan.loops.length > 0) return nothing(plan.loops.map(addresses));
    const grid = before.copy();
    const landing = new Landing(formulas, new Set(plan.order), areas, grid, book, model.tables);
    const progress = (done: number): void => onProgress?.(done, plan.order.length);
    const lacking = new Set<number>();
    const failures = calculate({
      formulas,
      plan,
      book,
      engine,
      stored,
      grid,
      landing,
      instrumentsInVain: functions.instrumentsInVain,
      lacking,
      onProgress: progress,
    });

    // A dynamic array of another size may reach cells that were read before it was calculated, and a formula that finds
    // its cells by itself may have read them too early.
    const resized = [...landing.areas].filter(([formula, area]) => !sameArea(areas.get(formula), area));
    const unsteady = plan.wanders ? changedSince(before, grid, plan, formulas) : [];
    if (resized.length === 0 && unsteady.length === 0) {
      const report = new Report(model, formulas, plan, failures, landing, stored, grid);
      const changes = report.changes();
      return {
        changes,
        counts: { recalculated: report.patched.length, changed: changes.length },
        errors: report.errors(),
        notes: report.notes(frozen, lacking),
        loops: [],
      };
    }
    areas = landing.areas;
    before = grid;
    if (pass % MOST_PASSES === 0)
      for (const formula of [...resized.map(([resizedOne]) => resizedOne), ...unsteady])
        frozen.set(formula, unsettled);
  }

  function addresses(loop: readonly number[]): Recalculation["loops"][number] {
    return loop.flatMap((formula) => {
      const cell = formulas[formula];
      return cell ? [{ sheet: book.sheetNames[cell.sheet] ?? "", row: cell.row, column: cell.column }] : [];
    });
  }
}

/** Formulas of a plan whose values differ between two grids. */
function changedSince(before: Grid, now: Grid, plan: Plan, formulas: readonly FormulaCell[]): number[] {
  return plan.order.filter((formula) => {
    const cell = formulas[formula];
    if (!cell || cell.template.volatile !== cell.template.wanders) return false; // NOW and RAND never settle
    return cellsOf(storedArea(cell)).some(
      ([row, column]) => !identical(before.get(cell.sheet, row, column), now.get(cell.sheet, row, column)),
    );
  });
}

function nothing(loops: Recalculation["loops"]): Recalculation {
  return { changes: [], counts: { recalculated: 0, changed: 0 }, errors: [], notes: [], loops };
}

function storedAreas(formulas: readonly FormulaCell[]): ReadonlyMap<number, Area> {
  return new Map(
    formulas.flatMap((cell, formula) =>
      cell.formula.kind === "plain" ? [] : [[formula, storedArea(cell)] as const],
    ),
  );
}
