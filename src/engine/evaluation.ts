import { Cells } from "./compiled/cells.js";
import { compiled } from "./compiled/compile.js";
import { NeedsInterpreter } from "./compiled/needs-interpreter.js";
import type { Engine } from "./engine.js";
import type { Grid } from "./grid.js";
import type { CellTest, Interpreter } from "./interpreter.js";
import { findCells } from "./references/dynamic-references.js";
import { type Surroundings, withoutSpills } from "./references/surroundings.js";
import type { Position } from "../cells/place.js";
import type { FormulaCell } from "./plan/formula-cells.js";
import type { Template } from "./references/templates.js";
import type { Translation } from "./references/translation.js";
import { FormulaError, elementAt, Values, type FormulaValue, type PositionedArea } from "./values.js";

/** Result of evaluating a formula on the cells of the engine. */
export interface Evaluated {
  /** Undefined if it was not evaluated. */
  readonly value: FormulaValue | undefined;
  /** Why not; a sentence. */
  readonly withheld: string | undefined;
  /** The formula with its dynamic references written out. */
  readonly formula?: Translation;
  /** Cells of its dynamic references. */
  readonly found: readonly PositionedArea[];
  /** It may read other cells as well. */
  readonly isUnknown: boolean;
}

const nothing: readonly PositionedArea[] = [];

/** Evaluates formulas in their cells. Copies of one formula are prepared once, unless each refers to other cells. */
export class Evaluation {
  readonly #prepared = new Map<Template, (at: Position) => FormulaValue>();
  readonly #cells: Cells;
  #interpreter: Interpreter | undefined;

  /**
   * @param grid the cells that formulas read; they must not change once a formula has read them
   * @param isSubtotal whether a cell's formula has a SUBTOTAL, which other SUBTOTALs skip
   */
  constructor(
    readonly engine: Engine,
    readonly grid: Grid,
    readonly isSubtotal: CellTest,
    readonly around: Surroundings,
  ) {
    this.#cells = new Cells(grid);
  }

  /** @throws any error of the interpreter, or InterpreterMissing */
  run(cell: FormulaCell): Evaluated {
    const { template } = cell;
    if (template.isDynamic) {
      const { translation, reads, withheld, isUnknown } = this.find(cell);
      const value = withheld === undefined ? this.#once(translation, cell) : undefined;
      this.#interpreter?.forgetRanges();
      return { value, withheld, formula: translation, found: reads, isUnknown };
    }
    const value = this.#value(cell, template);
    if (template.leavesTraces) this.#interpreter?.forgetRanges();
    return { value, withheld: undefined, found: nothing, isUnknown: false };
  }

  /** Only finds the cells that a formula reads, without evaluating it. */
  find(cell: FormulaCell): ReturnType<typeof findCells> {
    return findCells(seenFromCell(cell), cell, this.around, (part) => this.#once(part, cell));
  }

  #value(cell: FormulaCell, template: Template): FormulaValue {
    // If the text depends on present spills, it is read anew for every cell.
    if (template.followsSpill) return this.#once(seenFromCell(cell), cell);
    let ready = this.#prepared.get(template);
    if (!ready) {
      ready = this.#prepare(template.translation, template.base, true);
      this.#prepared.set(template, ready);
    }
    return ready(cell);
  }

  #once(formula: Translation, cell: FormulaCell): FormulaValue {
    return this.#prepare(formula, cell, false)(cell);
  }

  /**
   * @param keeps whether the cells that it reads already have their final values. Those that it only names (ROW,
   *   COLUMNS) are not read, so they need not.
   */
  #prepare(formula: Translation, base: Position, keeps: boolean): (at: Position) => FormulaValue {
    let byInterpreter: ((at: Position) => FormulaValue) | undefined;
    const interpreted = (at: Position): FormulaValue =>
      (byInterpreter ??= this.#reading().prepare(formula, base, this.around))(at);
    const plain = withoutSpills(formula, base, this.around);
    const step = compiled(plain, base, this.engine.functions, this.around);
    if (!step) return interpreted;
    return (at) => {
      this.#cells.nextFormula(keeps);
      try {
        return step(this.#cells, at);
      } catch (error) {
        if (error instanceof NeedsInterpreter) return interpreted(at);
        throw error;
      }
    };
  }

  #reading(): Interpreter {
    if (!this.#interpreter) {
      this.#interpreter = this.engine.interpreter();
      this.#interpreter.read(this.grid, this.isSubtotal);
    }
    return this.#interpreter;
  }
}

/** A formula as seen from one of the cells that hold it. */
export function seenFromCell({ template, row, column }: FormulaCell): Translation {
  const { translation, base } = template;
  const references = translation.references.map((reference) => ({
    ...reference,
    top: reference.top + (reference.topFixed ? 0 : row - base.row),
    bottom: reference.bottom + (reference.bottomFixed ? 0 : row - base.row),
    left: reference.left + (reference.leftFixed ? 0 : column - base.column),
    right: reference.right + (reference.rightFixed ? 0 : column - base.column),
  }));
  return { ...translation, references };
}

/** Results that say more about the engine than about the workbook. */
export function isDoubtful(
  { template, formula, stored }: FormulaCell,
  value: FormulaValue,
): "name" | "several" | undefined {
  const wasName = typeof stored === "object" && stored?.error === "#NAME?";
  const first = elementAt(value, 0, 0);
  if (first instanceof FormulaError && first.error === "#NAME?" && first.message === "" && !wasName)
    return "name";
  // Implicit intersection: a formula from before dynamic arrays takes the one cell of a range that is level with it.
  return formula.kind === "plain" && value instanceof Values && !template.own ? "several" : undefined;
}
