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

// A new value is only worth as much as the engine's understanding of the formula, and the file holds a proof of that: what
// the spreadsheet program of its author made of the stored cells. So whatever is not ours is first evaluated with the
// stored cells and must come to its stored result. This finds wrong functions, other languages and ranges that mean one
// cell alike, without a list of them.
//
// A formula that does more than call ours cannot be tried that way alone, because ours may rightly give something else than what
// is stored: an instrument was changed. Where it does not come to its stored value it is still written if it is "sure":
// all that it does beside calling ours is a matter of operators and functions whose meaning hangs on nothing outside the formula and
// which are held against other programs in the tests. Anything else in it (SUBTOTAL, TEXT, a function for text …) needs the proof.

/** What the stored cells have shown of a formula. */
export interface Verdict {
  /** What it comes to with the stored cells, if it is as stored. */
  readonly reproduced?: FormulaValue;
  /** Why its new value is not to be trusted; a sentence. */
  readonly doubt?: string;
}

const untried: Verdict = {};

/** Tries formulas on the workbook as it was, each of them once. */
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

  /** Tries those that were not tried yet. @throws InterpreterMissing */
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
    // The time that it was then is not in the file.
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

  /** The first value that does not come out as stored: new and old. */
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

/** What a program stores beside functions of ours that it does not have, or has not heard from yet. */
const unheard = new Set(["#NAME?", "#BUSY!", "#GETTING_DATA"]);

/** Whether a cell holds nothing that tells what the spreadsheet program of its author makes of the formula. */
export function tellsNothing({ template, stored }: FormulaCell): boolean {
  return stored === null || (template.own && typeof stored === "object" && unheard.has(stored.error));
}

function needsProof(cell: FormulaCell): boolean {
  return !tellsNothing(cell) && !(cell.template.own && cell.template.sure);
}

const sizeShown = (height: number, width: number): string => `${height} × ${width} cells`;
