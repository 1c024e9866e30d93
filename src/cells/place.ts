import { columnLimit, rowLimit } from "./limits.js";

/** A cell of a sheet that is known. Rows and columns count from 0. */
export interface Place {
  readonly row: number;
  readonly column: number;
}

/** A cell of a workbook, its sheet by name. */
export interface SheetPlace extends Place {
  readonly sheet: string;
}

/** A cell of a workbook, its sheet by number, from 0. */
export interface Position extends Place {
  readonly sheet: number;
}

/** A cell of a workbook as people are told of it. */
export interface CellAddress {
  readonly sheet: string;
  /** Such as "M4". */
  readonly address: string;
}

/** What a map of a sheet's cells goes by. */
export const placeKey = (row: number, column: number): string => `${row},${column}`;

/** What a map of a workbook's cells goes by. */
export const positionKey = ({ sheet, row, column }: Position | SheetPlace): string =>
  `${sheet},${row},${column}`;

/** The same as a number, which maps of very many cells go by. Sheets count from 0. */
export const positionNumber = (sheet: number, row: number, column: number): number =>
  (sheet * rowLimit + row) * columnLimit + column;
