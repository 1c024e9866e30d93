import { cellAddress, parseAddress } from "../cells/a1.js";
/**
 * Address of a cell relative to the first cell of a reference.
 *
 * @param reference such as "B2", "$B$2:C9" or "'Brew day'!B2"
 * @returns such as "C4", without the sheet
 */
export function cellAt(reference: string, down: number, across: number): string {
  const [, corner = ""] = /(\$?[A-Za-z]{1,3}\$?\d+)(?::\$?[A-Za-z]{1,3}\$?\d+)?#?$/.exec(reference) ?? [];
  const place = parseAddress(corner);
  if (!place) return `row ${down + 1}, column ${across + 1}`;
  return cellAddress(place.row + down, place.column + across);
}

/**
 * Some rows of the cells that a formula fills.
 *
 * @param address of the formula, such as "B2"
 * @param top rows from there
 * @returns such as "B2:D11"
 */
export const areaAt = (address: string, top: number, height: number, width: number): string =>
  `${cellAt(address, top, 0)}:${cellAt(address, top + height - 1, width - 1)}`;
