import { engineText, type Surroundings } from "./engine-text.js";
import type { Book } from "./book.js";
import { type FormulaCell, cellsOf, storedArea } from "./formula-cells.js";
import type { Grid } from "./grid.js";
import type { Landing } from "./landing.js";
import { lostForInstruments } from "./lost-for-instruments.js";
import { cannotCalculate, hiddenRows, instrumentMissing, severalValues } from "./messages.js";
import type { Plan } from "./plan.js";
import type { Template } from "./templates.js";
import type { CellTest, Parsed, UniverEngine } from "./univer-engine.js";
import { alike, CellError, element, Matrix, type Outcome } from "./values.js";

export interface CalculationInput {
  readonly formulas: readonly FormulaCell[];
  readonly plan: Plan;
  readonly book: Book;
  readonly engine: UniverEngine;
  /** The workbook as it was. */
  readonly stored: Grid;
  /** The same once more, to be changed. */
  readonly grid: Grid;
  readonly landing: Landing;
  /** Names of instruments that functions have looked for in vain since this was last asked. */
  readonly instrumentsInVain: () => readonly string[];
  /** Receives the formulas that are kept for want of an instrument. */
  readonly lacking: Set<number>;
  readonly onProgress: (done: number) => void;
}

const PROGRESS_STEP = 250;

/**
 * Evaluates the formulas of a plan, each after those it needs, into the grid.
 *
 * @returns formulas that turned out not to be evaluable, and why; they keep their stored values
 */
export function calculate(input: CalculationInput): Map<number, string> {
  const { plan, formulas, engine, stored, grid, landing } = input;
  const failures = hiddenRowFailures(input);
  const parsed = new Map<Template, Parsed>();
  engine.read(grid, subtotalsOf(input));
  const now = surroundings(input, grid, (formula) => landing.areas.get(formula));
  for (const [done, formula] of plan.order.entries()) {
    if (done % PROGRESS_STEP === 0) input.onProgress(done);
    const cell = formulas[formula];
    if (!cell) continue;
    const failure = failures.get(formula) ?? attempt(formula, cell);
    if (failure === undefined) continue;
    failures.set(formula, failure);
    landing.restore(formula, cell, stored);
  }
  input.onProgress(plan.order.length);
  return failures;

  function attempt(formula: number, cell: FormulaCell): string | undefined {
    try {
      input.instrumentsInVain();
      const value = evaluate(engine, cell, now, parsed);
      const missing = input.instrumentsInVain();
      if (missing.length > 0 && lostForInstruments(cell, value, stored)) {
        input.lacking.add(formula);
        return instrumentMissing(missing);
      }
      const failure = doubt(cell, value);
      if (failure === undefined) landing.land(formula, cell, value);
      return failure;
    } catch (error) {
      return cannotCalculate(error);
    }
  }
}

function evaluate(
  engine: UniverEngine,
  cell: FormulaCell,
  around: Surroundings,
  parsed: Map<Template, Parsed>,
): Outcome {
  const { template } = cell;
  // Where the text depends on what is spilled now, it is written anew for every cell.
  if (template.followsSpill) return engine.evaluate(engine.parse(textAt(cell, around)), cell, cell);
  let node = parsed.get(template);
  if (!node)
    parsed.set(template, (node = engine.parse(engineText(template.translation, template.base, around))));
  const outcome = engine.evaluate(node, cell, template.base);
  if (template.leavesTraces) engine.forgetRanges();
  return outcome;
}

function textAt(cell: FormulaCell, around: Surroundings): string {
  const { translation, base } = cell.template;
  const references = translation.references.map((reference) => ({
    ...reference,
    top: reference.top + (reference.topFixed ? 0 : cell.row - base.row),
    bottom: reference.bottom + (reference.bottomFixed ? 0 : cell.row - base.row),
    left: reference.left + (reference.leftFixed ? 0 : cell.column - base.column),
    right: reference.right + (reference.rightFixed ? 0 : cell.column - base.column),
  }));
  return engineText({ ...translation, references }, cell, around);
}

/** Results that say more about the engine than about the workbook. */
function doubt(cell: FormulaCell, value: Outcome): string | undefined {
  const { template, formula, stored } = cell;
  const wasName = typeof stored === "object" && stored?.error === "#NAME?";
  const first = element(value, 0, 0);
  if (first instanceof CellError && first.error === "#NAME?" && !wasName && !template.own)
    return cannotCalculate();
  // From before there were dynamic arrays: such a formula takes the one cell of a range that is level with it.
  if (formula.kind === "plain" && value instanceof Matrix && !template.own) return severalValues;
  return undefined;
}

/**
 * SUBTOTAL and AGGREGATE leave out rows that are hidden, which cannot be seen here. So with the stored cells they must
 * first come to their stored values.
 */
function hiddenRowFailures(input: CalculationInput): Map<number, string> {
  const { plan, formulas, engine, stored } = input;
  const failures = new Map<number, string>();
  const doubtful = plan.order.filter((formula) => formulas[formula]?.template.subtotals);
  if (doubtful.length === 0) return failures;
  engine.read(stored, subtotalsOf(input));
  const before = surroundings(input, stored, (formula) => {
    const cell = formulas[formula];
    return cell && storedArea(cell);
  });
  const parsed = new Map<Template, Parsed>();
  for (const formula of doubtful) {
    const cell = formulas[formula];
    if (!cell || cell.template.own || cell.stored === null) continue;
    const fresh = evaluate(engine, cell, before, parsed);
    const same = cellsOf(storedArea(cell)).every(([row, column]) =>
      alike(element(fresh, row - cell.row, column - cell.column), stored.get(cell.sheet, row, column)),
    );
    if (!same) failures.set(formula, hiddenRows);
  }
  return failures;
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
