import type { Grid } from "./grid.js";
import type { Position } from "../cells/place.js";
import type { Surroundings } from "./references/surroundings.js";
import type { Translation } from "./references/translation.js";
import type { FormulaValue } from "./values.js";

/** Something that is so or not so of a cell. */
export type CellTest = (sheet: number, row: number, column: number) => boolean;

/** Calculates the formulas that are not compiled. */
export interface Interpreter {
  /**
   * From now on formulas read these cells, which must not change any more once a formula has read them.
   *
   * @param isSubtotal whether the formula of a cell takes a SUBTOTAL, which other ones leave out
   */
  read(grid: Grid, isSubtotal: CellTest): void;
  /**
   * Reads a formula once, for as many cells as it was copied to.
   *
   * @param base the cell for which it is written; references without "$" move along
   * @returns what gives its value in a cell; it throws at a formula that is too much for it
   */
  prepare(formula: Translation, base: Position, around: Surroundings): (at: Position) => FormulaValue;
  /** To be called after a formula that leaves traces: it keeps every range it has read, and sorts in place. */
  forgetRanges(): void;
  dispose(): void;
}

/** Ends a calculation for which there is no interpreter at hand. */
export class InterpreterMissing extends Error {
  override readonly name = "InterpreterMissing";
}
