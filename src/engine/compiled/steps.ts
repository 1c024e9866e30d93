import type { Position } from "../../cells/place.js";
import { Values, type FormulaValue, type PositionedArea } from "../values.js";
import type { Cells } from "./cells.js";

/** What is done in a cell to come to a part of its formula. */
export type CompiledStep = (cells: Cells, at: Position) => FormulaValue;

/** A part of a formula, ready to be calculated. */
export interface Steps {
  /** As functions are given it that look at what stands in cells: one cell is a range of one. */
  readonly whole: CompiledStep;
  /** One cell is what it holds. */
  readonly plain: CompiledStep;
  /** The cells that a reference means. */
  readonly area?: (at: Position) => PositionedArea;
}

/** A part that stands in no cells. */
export const alike = (step: CompiledStep): Steps => ({ whole: step, plain: step });

/** An array of one value is that value. */
export const lone = (value: FormulaValue): FormulaValue =>
  value instanceof Values && value.height === 1 && value.width === 1 ? value.at(0, 0) : value;
