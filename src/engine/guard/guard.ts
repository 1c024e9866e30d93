import { forEachCell } from "../../cells/area.js";
import type { Engine } from "../engine.js";
import { type Evaluated, Evaluation, isDoubtful } from "../evaluation.js";
import { type FormulaCell, storedArea } from "../plan/formula-cells.js";
import type { Grid } from "../grid.js";
import { cannotCalculate, mixedUnsure, notReproduced, readsClock, severalValues } from "../messages.js";
import { shownScalar } from "./shown.js";
import type { Surroundings } from "../references/surroundings.js";
import { type CellTest, InterpreterMissing } from "../interpreter.js";
import { alikeValues, elementAt, Values, type FormulaValue } from "../values.js";

// A new value can only be trusted if the engine understands the formula, and the file holds proof of that: the stored
// result of the author's spreadsheet program for the stored cells. So every formula that is not ours is first evaluated
// on the stored cells and must reproduce its stored result. This catches wrong functions, other languages
// and implicit intersection alike, without a list of them.
//
// A formula that does more than call our functions cannot be tested like this alone, because our functions may rightly
// give something other than the stored value: an instrument was changed. If it does not reproduce its stored value it
// is still written if it is trusted, that is, if everything besides our calls consists of operators and functions that
// depend on nothing outside the formula and are compared with other programs in the tests. Anything else in it
// (SUBTOTAL, TEXT, a text function …) needs the proof.

/** What evaluation on the stored cells shows about a formula. */
export interface Verdict {
  /** Its result for the stored cells, if that equals the stored one. */
  readonly reproduced?: FormulaValue;
  /** Why its new value cannot be trusted; a sentence. */
  readonly doubt?: string;
}

const untried: Verdict = {};

/** Evaluates formulas on the workbook as it was, each of them once. */
export class Guard {
  readonly #verdicts = new Map<number, Verdict>();

  /** @param stored the workbook as it was */
  constructor(
    readonly formulas: readonly FormulaCell[],
    readonly engine: Engine,
    readonly stored: Grid,
  ) {}

  of(formula: number): Verdict {
    return this.#verdicts.get(formula) ?? untried;
  }

  /** Evaluates those not evaluated yet. @throws InterpreterMissing */
  tryAll(formulas: readonly number[], around: Surroundings, isSubtotal: CellTest): void {
    const open = formulas.filter((formula) => !this.#verdicts.has(formula));
    if (open.length === 0) return;
    const evaluation = new Evaluation(this.engine, this.stored, isSubtotal, around);
    for (const formula of open) {
      const cell = this.formulas[formula];
      if (cell) this.#verdicts.set(formula, needsProof(cell) ? this.#tried(cell, evaluation) : untried);
    }
  }

  #tried(cell: FormulaCell, evaluation: Evaluation): Verdict {
    const { own, volatile } = cell.template;
    // The file does not say what the time was.
    if (!own && volatile) return { doubt: readsClock };
    let evaluated: Evaluated;
    try {
      evaluated = evaluation.run(cell);
    } catch (error) {
      if (error instanceof InterpreterMissing) throw error;
      return { doubt: cannotCalculate(error) };
    }
    const { value, withheld } = evaluated;
    if (value === undefined) return withheld === undefined ? {} : { doubt: withheld };
    const difference = this.#difference(cell, value);
    if (!difference) return { reproduced: value };
    if (isDoubtful(cell, value) === "several") return { doubt: severalValues };
    return { doubt: (own ? mixedUnsure : notReproduced)(...difference) };
  }

  /** The first value that differs from the stored one: new and old. */
  #difference(cell: FormulaCell, value: FormulaValue): readonly [string, string] | undefined {
    const area = storedArea(cell);
    const [height, width] = value instanceof Values ? [value.height, value.width] : [1, 1];
    const isSize = height === area.bottom - area.top + 1 && width === area.right - area.left + 1;
    if (cell.formula.kind === "spill" && !isSize)
      return [sizeShown(height, width), sizeShown(area.bottom - area.top + 1, area.right - area.left + 1)];
    if (isDoubtful(cell, value) === "several")
      return ["several values", shownScalar(this.stored.get(cell.sheet, cell.row, cell.column))];
    let difference: readonly [string, string] | undefined;
    forEachCell(area, (row, column) => {
      const stored = this.stored.get(cell.sheet, row, column);
      // A formula never leaves its cell blank.
      const fresh = elementAt(value, row - cell.row, column - cell.column) ?? 0;
      if (!alikeValues(fresh, stored)) difference ??= [shownScalar(fresh), shownScalar(stored)];
    });
    return difference;
  }
}

/** Values stored for our functions by a program that does not have them, or has not heard from them yet. */
const unheard = new Set(["#NAME?", "#BUSY!", "#GETTING_DATA"]);

/** Whether a cell's stored value says nothing about how the author's spreadsheet program understood the formula. */
export function tellsNothing({ template, stored }: FormulaCell): boolean {
  return stored === null || (template.own && typeof stored === "object" && unheard.has(stored.error));
}

function needsProof(cell: FormulaCell): boolean {
  return !tellsNothing(cell) && !(cell.template.own && cell.template.isTrusted);
}

const sizeShown = (height: number, width: number): string => `${height} × ${width} cells`;
