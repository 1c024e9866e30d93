import { BRIX_STEP, FIRST_ROW_C, rows } from "./refractometer-temperature-table.js";
import { brixRange } from "../liquid/refractive-index.js";
import { checkRange, type Range } from "../refusal.js";
import { valueAt } from "../numeric/value-at.js";

export const refractometerTemperature: Range = {
  of: "temperature at the refractometer",
  min: 10,
  max: 30,
  unit: "°C",
};

/** Source of the correction. */
export const TABLE_1936 = "international temperature correction table of 1936";

const cell = (row: number, column: number): number => valueAt(valueAt(rows, row), column);

/**
 * Correction to add to a reading taken without temperature compensation, to refer it to 20 °C.
 *
 * International temperature correction table of 1936 for sucrose, interpolated linearly. It was made for sugar
 * solutions; using it for fermenting beer is the usual approximation.
 *
 * @param brix reading, °Bx, 0 to 30
 * @param tC temperature of prism and sample, °C, 10 to 30
 * @throws Refusal outside these ranges
 */
export function refractometerCorrection(brix: number, tC: number): number {
  checkRange(brixRange, brix);
  checkRange(refractometerTemperature, tC);
  const row = Math.min(Math.floor(tC - FIRST_ROW_C), rows.length - 2);
  const column = Math.min(Math.floor(brix / BRIX_STEP), valueAt(rows, row).length - 2);
  const down = tC - FIRST_ROW_C - row;
  const across = brix / BRIX_STEP - column;
  const upper = cell(row, column) * (1 - across) + cell(row, column + 1) * across;
  const lower = cell(row + 1, column) * (1 - across) + cell(row + 1, column + 1) * across;
  return upper * (1 - down) + lower * down;
}
