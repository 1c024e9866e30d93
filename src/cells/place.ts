import { columnLimit, rowLimit } from "./limits.js";

/** A cell of a given sheet. Rows and columns count from 0. */
export interface Place {
  readonly row: number;
  readonly column: number;
}

/** A cell of a workbook, with its sheet by name. */
export interface SheetPlace extends Place {
  readonly sheet: string;
}

/** A cell of a workbook, with its sheet by number, from 0. */
export interface Position extends Place {
  readonly sheet: number;
}

/** A cell of a workbook as shown to people. */
export interface CellAddress {
  readonly sheet: string;
  /** Such as "M4". */
  readonly address: string;
}

/** Key of a cell in a map for one sheet. */
export const placeKey = (row: number, column: number): string => `${row},${column}`;

/** Key of a cell in a map for a workbook. */
export const positionKey = ({ sheet, row, column }: Position | SheetPlace): string =>
  `${sheet},${row},${column}`;

/** A numeric key, for maps of very many cells. Sheets count from 0. */
export const positionNumber = (sheet: number, row: number, column: number): number =>
  (sheet * rowLimit + row) * columnLimit + column;
