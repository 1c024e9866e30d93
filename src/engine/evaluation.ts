import { findCells } from "./references/dynamic-references.js";
import { engineText, type Surroundings } from "./references/engine-text.js";
import type { FormulaCell } from "./plan/formula-cells.js";
import type { Template } from "./references/templates.js";
import type { Translation } from "./references/translation.js";
import type { Parsed, UniverEngine } from "./univer/univer-engine.js";
import { CellError, element, Matrix, type Outcome, type SheetArea } from "./values.js";

/** What a formula comes to with the cells that the engine reads. */
export interface Evaluated {
  /** Undefined if it was not evaluated. */
  readonly value: Outcome | undefined;
  /** Why not; a sentence. */
  readonly withheld: string | undefined;
  /** The formula with the cells written out that it found. */
  readonly formula?: Translation;
  /** Cells it found by calculation. */
  readonly found: readonly SheetArea[];
  /** It may read others as well. */
  readonly isUnknown: boolean;
}

/** Evaluates formulas in their cells. Copies of one formula are parsed once, unless each means other cells. */
export class Evaluation {
  readonly #parsed = new Map<Template, Parsed>();

  constructor(
    readonly engine: UniverEngine,
    readonly around: Surroundings,
  ) {}

  /** @throws whatever Univer throws at a formula that is too much for it */
  run(cell: FormulaCell): Evaluated {
    const { template } = cell;
    const plainly = { withheld: undefined, found: [], isUnknown: false };
    if (template.wanders) {
      const { translation, reads, withheld, isUnknown } = this.find(cell);
      const value = withheld === undefined ? this.#evaluate(translation, cell) : undefined;
      this.engine.forgetRanges();
      return { value, withheld, formula: translation, found: reads, isUnknown };
    }
    // Where the text depends on what is spilled now, it is written anew for every cell.
    if (template.followsSpill) return { ...plainly, value: this.#evaluate(inCell(cell), cell) };
    let node = this.#parsed.get(template);
    if (!node) {
      node = this.engine.parse(engineText(template.translation, template.base, this.around));
      this.#parsed.set(template, node);
    }
    const value = this.engine.evaluate(node, cell, template.base);
    if (template.leavesTraces) this.engine.forgetRanges();
    return { ...plainly, value };
  }

  /** Only finds the cells that a formula reads, and does not evaluate it. */
  find(cell: FormulaCell): ReturnType<typeof findCells> {
    return findCells(inCell(cell), cell, this.around, (part) => this.#evaluate(part, cell));
  }

  #evaluate(formula: Translation, cell: FormulaCell): Outcome {
    return this.engine.evaluate(this.engine.parse(engineText(formula, cell, this.around)), cell, cell);
  }
}

/** A formula as seen from one of the cells that hold it. */
export function inCell({ template, row, column }: FormulaCell): Translation {
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
  value: Outcome,
): "name" | "several" | undefined {
  const wasName = typeof stored === "object" && stored?.error === "#NAME?";
  const first = element(value, 0, 0);
  if (first instanceof CellError && first.error === "#NAME?" && first.message === "" && !wasName)
    return "name";
  // From before there were dynamic arrays: such a formula takes the one cell of a range that is level with it.
  return formula.kind === "plain" && value instanceof Matrix && !template.own ? "several" : undefined;
}
