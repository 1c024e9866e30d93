import { InlineArray } from "../native/argument.js";
import { badReference, badValue } from "../native/define.js";
import { FormulaError, Values, type FormulaValue } from "../values.js";
import { NeedsInterpreter } from "./needs-interpreter.js";
import { lone, type CompiledStep, type Steps } from "./steps.js";

/**
 * INDEX with one row and one column. Only the cells picked are read, not the whole range.
 *
 * @returns undefined for other numbers of arguments
 */
export function pickFrom([from, row, column, ...more]: readonly Steps[]): Steps | undefined {
  if (!from || !row || more.length > 0) return undefined;
  const whole: CompiledStep = (cells, at) => {
    const area = from.area?.(at);
    const array = area ? undefined : from.whole(cells, at);
    const r = row.plain(cells, at);
    const c = column?.plain(cells, at);
    if (array instanceof FormulaError) return array;
    const size = area
      ? { height: area.bottom - area.top + 1, width: area.right - area.left + 1 }
      : array instanceof Values
        ? array
        : { height: 1, width: 1 };
    const place = placeIn(size, r, c);
    if (place instanceof FormulaError) return place;
    if (area) {
      const [top, left] = [area.top + place.row - 1, area.left + place.column - 1];
      const rows = place.row === 0 ? area : { top, bottom: top };
      const columns = place.column === 0 ? area : { left, right: left };
      return cells.range({
        sheet: area.sheet,
        top: rows.top,
        bottom: rows.bottom,
        left: columns.left,
        right: columns.right,
      });
    }
    return array instanceof Values ? picked(array, place) : (array ?? null);
  };
  return { whole, plain: (cells, at) => lone(whole(cells, at)) };
}

/** From 1; 0 for all. */
interface Place {
  readonly row: number;
  readonly column: number;
}

/** @throws NeedsInterpreter for anything but a number, and for several rows or columns at once */
function placeIn(
  { height, width }: { readonly height: number; readonly width: number },
  row: FormulaValue,
  column: FormulaValue | undefined,
): Place | FormulaError {
  if (typeof row !== "number" || (column !== undefined && typeof column !== "number"))
    throw new NeedsInterpreter();
  const isAcross = height === 1 && column === undefined;
  const r = isAcross ? 0 : Math.floor(row);
  const c = Math.floor(isAcross ? row : (column ?? 0));
  if (r < 0 || c < 0) return badValue;
  return r > height || c > width ? badReference : { row: r, column: c };
}

function picked(array: Values, { row, column }: Place): FormulaValue {
  if (row === 0 && column === 0) return array;
  if (row > 0 && column > 0) return array.at(row - 1, column - 1);
  const rows = row === 0 ? array.rows : array.rows.slice(row - 1, row);
  return new InlineArray(column === 0 ? rows : rows.map((cells) => [cells[column - 1] ?? null]));
}
