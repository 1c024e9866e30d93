import type { Grid } from "./grid.js";
import type { Position } from "../cells/place.js";
import type { Surroundings } from "./references/surroundings.js";
import type { Translation } from "./references/translation.js";
import type { FormulaValue } from "./values.js";

/** A predicate on cells. */
export type CellTest = (sheet: number, row: number, column: number) => boolean;

/** Calculates the formulas that are not compiled. */
export interface Interpreter {
  /**
   * Sets the cells for formulas to read; they must not change once a formula has read them.
   *
   * @param isSubtotal whether a cell's formula has a SUBTOTAL, which other SUBTOTALs skip
   */
  read(grid: Grid, isSubtotal: CellTest): void;
  /**
   * Parses a formula once for all cells that it was copied to.
   *
   * @param base the cell for which it is written; references without "$" are relative to it
   * @returns a function that evaluates it in a cell; it throws if the formula is too much for the interpreter
   */
  prepare(formula: Translation, base: Position, around: Surroundings): (at: Position) => FormulaValue;
  /**
   * Call this after a formula that leaves traces: the interpreter caches every range it has read, and sorts in place.
   */
  forgetRanges(): void;
  dispose(): void;
}

/** Thrown by a calculation that needs an interpreter if there is none. */
export class InterpreterMissing extends Error {
  override readonly name = "InterpreterMissing";
}
