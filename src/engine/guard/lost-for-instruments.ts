import { placesOf, storedArea, type FormulaCell } from "../plan/formula-cells.js";
import type { Grid } from "../grid.js";
import { alikeValues, FormulaError, elementAt, type FormulaValue, type Scalar } from "../values.js";

const isUsable = (value: Scalar): boolean =>
  value !== null && value !== "" && !(value instanceof FormulaError);

/**
 * Whether a formula's value would be lost because an instrument is missing: to an error, or to whatever the formula
 * makes of one.
 */
export const lostForInstruments = (
  cell: Pick<FormulaCell, "formula" | "sheet" | "row" | "column">,
  value: FormulaValue,
  stored: Grid,
): boolean =>
  placesOf(storedArea(cell)).some(([row, column]) => {
    const had = stored.get(cell.sheet, row, column);
    return isUsable(had) && !alikeValues(had, elementAt(value, row - cell.row, column - cell.column));
  });
