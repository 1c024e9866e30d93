import { type Area, sameArea } from "../cells/area.js";
import type { WorkbookModel } from "../workbook/model.js";
import { calculate } from "./calculation.js";
import { Engine } from "./engine.js";
import { type FormulaCell, formulaCells, storedArea } from "./plan/formula-cells.js";
import { Grid } from "./grid.js";
import { Guard } from "./guard/guard.js";
import type { Interpreter } from "./interpreter.js";
import { Landing } from "./landing.js";
import { unsettled } from "./messages.js";
import type { CellFunctions } from "./ours/cell-functions.js";
import { type Cycle, makePlan } from "./plan/plan.js";
import type { Recalculation, RecalculationOptions } from "./recalculation.js";
import { Book } from "./references/book.js";
import { CalculationReport } from "./report.js";
import { Templates } from "./references/templates.js";
import { calculated as known } from "./univer/calculated-functions.js";
import type { PositionedArea } from "./values.js";

/** Restarts before formulas that never settle are given up. */
const MAX_PASSES = 8;

/** A workbook to be recalculated, with its formulas read. */
export class Recalculating {
  readonly book: Book;
  readonly #formulas: readonly FormulaCell[];

  constructor(
    readonly model: WorkbookModel,
    readonly functions: CellFunctions,
  ) {
    this.book = new Book(model);
    this.#formulas = formulaCells(model, new Templates(this.book, functions, known));
  }

  /**
   * @param make creates an interpreter for formulas that need one
   * @throws InterpreterMissing if there is none; the call can be repeated with one
   */
  run(make: (() => Interpreter) | undefined, options: RecalculationOptions): Recalculation {
    if (!this.#formulas.some(({ template }) => template.own)) return { book: this.book, ...nothing };
    const engine = new Engine(this.functions, make);
    try {
      return passes(this.model, this.book, this.#formulas, engine, options);
    } finally {
      engine.dispose();
    }
  }
}

function passes(
  model: WorkbookModel,
  book: Book,
  formulas: readonly FormulaCell[],
  engine: Engine,
  { onProgress, uncalculated = false }: RecalculationOptions,
): Recalculation {
  const stored = Grid.of(model);
  const guard = new Guard(formulas, engine, stored);
  const unsettledOnes = new Set<number>();
  const frozen = (formula: number): string | undefined =>
    formulas[formula]?.template.obstacle ?? (unsettledOnes.has(formula) ? unsettled : undefined);
  let areas = storedAreas(formulas);
  let found: ReadonlyMap<number, readonly PositionedArea[]> = new Map();
  const cycles = new Map<number, Cycle>();
  let before = stored;
  for (let pass = 1; ; pass++) {
    const plan = makePlan(formulas, areas, found, cycles);
    const grid = before.copy();
    const evaluated = plan.order.filter(
      (formula) => frozen(formula) === undefined && !plan.cycles.has(formula),
    );
    for (const formula of evaluated) {
      const cell = formulas[formula];
      if (cell) engine.expectReady(cell.template);
    }
    const landing = new Landing(formulas, new Set(evaluated), areas, grid, book, model.tables);
    const calculated = calculate({
      formulas,
      plan,
      book,
      engine,
      guard,
      frozen,
      uncalculated,
      stored,
      grid,
      landing,
      instrumentsInVain: engine.functions.instrumentsInVain,
      onProgress: (done) => onProgress?.(done, plan.order.length),
    });

    // A dynamic array that changed size may reach cells that were read before it was calculated. A formula with dynamic
    // references may have read them too early as well, or turn out not to depend on ours.
    const resized = [...landing.areas].flatMap(([formula, area]) =>
      sameArea(areas.get(formula), area) ? [] : [formula],
    );
    const strayed = [...calculated.found].flatMap(([formula, cells]) =>
      unsettledOnes.has(formula) || sameAreas(found.get(formula) ?? [], cells) ? [] : [formula],
    );
    if (resized.length === 0 && strayed.length === 0) {
      const report = new CalculationReport({
        model,
        formulas,
        plan,
        calculated,
        landing,
        stored,
        grid,
        uncalculated,
      });
      const changes = report.changes();
      const ours = new Set([...plan.cycles.values()].filter(({ own }) => own));
      return {
        book,
        changes,
        counts: { recalculated: report.patched.length, changed: changes.length },
        errors: report.errors(),
        cutOff: report.cutOff(),
        notes: report.notes(),
        cycles: [...ours].map(({ path: way }) => addresses(way)),
      };
    }
    // An array in a cycle is given up, which breaks the cycle only as long as it is not calculated.
    const closed = new Set(resized.map((formula) => plan.cycles.get(formula)));
    for (const [formula, cycle] of plan.cycles) if (closed.has(cycle)) cycles.set(formula, cycle);
    areas = landing.areas;
    found = new Map([...found, ...calculated.found]);
    before = grid;
    if (pass % MAX_PASSES === 0) for (const formula of [...resized, ...strayed]) unsettledOnes.add(formula);
  }

  function addresses(cycle: readonly number[]): Recalculation["cycles"][number] {
    return cycle.flatMap((formula) => {
      const cell = formulas[formula];
      return cell ? [{ sheet: book.sheetNames[cell.sheet] ?? "", row: cell.row, column: cell.column }] : [];
    });
  }
}

function sameAreas(a: readonly PositionedArea[], b: readonly PositionedArea[]): boolean {
  return a.length === b.length && a.every((area, i) => area.sheet === b[i]?.sheet && sameArea(area, b[i]));
}

const nothing: Omit<Recalculation, "book"> = {
  changes: [],
  counts: { recalculated: 0, changed: 0 },
  errors: [],
  notes: [],
  cutOff: [],
  cycles: [],
};

function storedAreas(formulas: readonly FormulaCell[]): ReadonlyMap<number, Area> {
  return new Map(
    formulas.flatMap((cell, formula) =>
      cell.formula.kind === "plain" ? [] : [[formula, storedArea(cell)] as const],
    ),
  );
}
