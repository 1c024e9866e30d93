/** A sheet's name as formulas write it, in quotes where it could be taken for something else. */
export function quoted(sheetName: string): string {
  return /^[A-Za-z_][A-Za-z_0-9]*$/.test(sheetName) && !looksLikeCell.test(sheetName)
    ? sheetName
    : `'${sheetName.replaceAll("'", "''")}'`;
}

const looksLikeCell = /^(?:[A-Za-z]{1,3}[0-9]+|R[0-9]*C?[0-9]*|C[0-9]*|TRUE|FALSE)$/i;

/** For comparing names of sheets, tables, columns and cells as Excel does. */
export function fold(name: string): string {
  return name.toLowerCase();
}
