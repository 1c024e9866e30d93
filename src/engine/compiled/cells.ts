import type { Area } from "../../cells/area.js";
import type { Grid } from "../grid.js";
import { tooManyCells } from "../messages.js";
import { FormulaError, errorCodes, Values, type Scalar, type PositionedArea } from "../values.js";

/**
 * Most cells of a sheet that one formula may read. A few whole columns stay below it; a whole sheet, to which a
 * computed range can extend, would take hours.
 */
export const MAX_CELLS = 4_000_000;

/** Errors as cells show them; their messages belong to the cell where they arose. */
const withoutMessages = new Map([...errorCodes].map((code) => [code, new FormulaError(code)]));

/** Values of cells as formulas read them. */
export class Cells {
  /** Cache of ranges whose cells no longer change. */
  readonly #ranges = new Map<string, Values>();
  #left = MAX_CELLS;
  /** Whether ranges are cached for later formulas; not while their cells may still change. */
  keeps = true;

  constructor(readonly grid: Grid) {}

  nextFormula(keeps: boolean): void {
    this.#left = MAX_CELLS;
    this.keeps = keeps;
  }

  at(sheet: number, row: number, column: number): Scalar {
    const value = this.grid.get(sheet, row, column);
    if (typeof value === "number") return value + 0; // no minus zero
    // Errors that only other programs know are texts here.
    return value instanceof FormulaError ? (withoutMessages.get(value.error) ?? value.error) : value;
  }

  /** @throws RangeError for more cells than a formula may read */
  range(area: PositionedArea): Values {
    const { sheet, top, left, bottom, right } = area;
    const key = `${sheet},${top},${left},${bottom},${right}`;
    const known = this.#ranges.get(key);
    if (known) return known;
    this.#left -= size(area);
    if (this.#left < 0) throw new RangeError(tooManyCells(MAX_CELLS));
    const rows: Scalar[][] = [];
    for (let row = top; row <= bottom; row++) {
      const cells: Scalar[] = [];
      for (let column = left; column <= right; column++) cells.push(this.at(sheet, row, column));
      rows.push(cells);
    }
    const range = new Values(rows);
    if (this.keeps) this.#ranges.set(key, range);
    return range;
  }
}

const size = ({ top, left, bottom, right }: Area): number => (bottom - top + 1) * (right - left + 1);
