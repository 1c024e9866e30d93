import type { Report } from "../../pane/ports/formulas-port.js";
import type { BookCells } from "./book-cells.js";
import type { CellAddress, Position } from "../../cells/place.js";

/** Why nothing can be done with a cell that was found some time ago. */
export const nowhere = ({ sheet, address }: CellAddress): string =>
  `There is no cell ${address} in a sheet "${sheet}" here any more. Look for the formulas again.`;

/** Where cells are; those that have no place in the workbook on the page have failed. */
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
