/** Limits of the file format for the size of a sheet and the length of a cell's text and of a formula. */
export const rowLimit = 1_048_576;
export const columnLimit = 16_384;
/** The last row and column, counted from 0. */
export const lastRow = rowLimit - 1;
export const lastColumn = columnLimit - 1;
export const cellTextLimit = 32_767;
export const formulaLimit = 8192;
