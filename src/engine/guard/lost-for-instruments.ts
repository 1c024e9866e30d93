import { cellsOf, storedArea, type FormulaCell } from "../plan/formula-cells.js";
import type { Grid } from "../grid.js";
import { alike, CellError, element, type Outcome, type Scalar } from "../values.js";

const isUsable = (value: Scalar): boolean => value !== null && value !== "" && !(value instanceof CellError);

/**
 * Whether a value that a formula had would be lost by what it comes to for want of an instrument: as an error, or as
 * whatever the formula makes of one.
 */
export const lostForInstruments = (
  cell: Pick<FormulaCell, "formula" | "sheet" | "row" | "column">,
  value: Outcome,
  stored: Grid,
): boolean =>
  cellsOf(storedArea(cell)).some(([row, column]) => {
    const had = stored.get(cell.sheet, row, column);
    return isUsable(had) && !alike(had, element(value, row - cell.row, column - cell.column));
  });
