/** A sheet's name as formulas write it, in quotes if it could be mistaken for something else. */
export function quotedSheetName(sheetName: string): string {
  return /^[A-Za-z_][A-Za-z_0-9]*$/.test(sheetName) && !looksLikeCell.test(sheetName)
    ? sheetName
    : `'${sheetName.replaceAll("'", "''")}'`;
}

const looksLikeCell = /^(?:[A-Za-z]{1,3}[0-9]+|R[0-9]*C?[0-9]*|C[0-9]*|TRUE|FALSE)$/i;

/** Folds the case of names of sheets, tables, columns and cells to compare them as Excel does. */
export function foldCase(name: string): string {
  return name.toLowerCase();
}
