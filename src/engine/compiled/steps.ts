import type { Position } from "../../cells/place.js";
import { Values, type FormulaValue, type PositionedArea } from "../values.js";
import type { Cells } from "./cells.js";

/** Calculates a part of a formula in a cell. */
export type CompiledStep = (cells: Cells, at: Position) => FormulaValue;

/** A compiled part of a formula. */
export interface Steps {
  /** For functions that look at cells: a single cell is a range of one. */
  readonly whole: CompiledStep;
  /** For all others: a single cell is its value. */
  readonly plain: CompiledStep;
  /** The cells of a reference. */
  readonly area?: (at: Position) => PositionedArea;
}

/** A part that is not tied to cells. */
export const alike = (step: CompiledStep): Steps => ({ whole: step, plain: step });

/** An array of one value is that value. */
export const lone = (value: FormulaValue): FormulaValue =>
  value instanceof Values && value.height === 1 && value.width === 1 ? value.at(0, 0) : value;
