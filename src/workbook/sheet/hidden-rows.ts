import type { Area } from "../../cells/area.js";
import type { HiddenBy } from "../model.js";

/**
 * The rows of a sheet that are not shown, if there are any.
 *
 * A file marks them all alike. A filter hides those of them that lie in its cells, below the heading. Rows that are folded away in
 * an outline carry the mark too.
 *
 * @param filters the cells of those that have something to choose by
 */
export function hiddenRows(
  rows: readonly number[],
  filters: readonly (Area | undefined)[],
): ReadonlyMap<number, HiddenBy> | undefined {
  if (rows.length === 0) return undefined;
  const isFiltered = (row: number): boolean =>
    filters.some((area) => area && row > area.top && row <= area.bottom);
  return new Map(rows.map((row) => [row, isFiltered(row) ? "filter" : "hand"]));
}
