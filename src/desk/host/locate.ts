import type { Report } from "../../pane/ports/formulas-port.js";
import type { BookCells } from "./book-cells.js";
import type { CellAddress, Position } from "../../cells/place.js";

/** Why an operation on a cell found some time ago is impossible. */
export const nowhere = ({ sheet, address }: CellAddress): string =>
  `There is no cell ${address} in a sheet "${sheet}" here any more. Look for the formulas again.`;

/** Places of cells; those that no longer exist in the workbook on the page are failures. */
export function locateInBook<T extends CellAddress>(
  cells: Pick<BookCells, "place">,
  formulas: readonly T[],
): { readonly places: readonly (Position & { readonly found: T })[]; readonly failed: Report["failed"] } {
  const places: (Position & { readonly found: T })[] = [];
  const failed: Report["failed"][number][] = [];
  for (const found of formulas) {
    const place = cells.place(found);
    if (place) places.push({ ...place, found });
    else failed.push({ sheet: found.sheet, address: found.address, why: nowhere(found) });
  }
  return { places, failed };
}
