const lettersOf = (n: number): string =>
  (n > 26 ? lettersOf(Math.floor((n - 1) / 26)) : "") + String.fromCharCode(65 + ((n - 1) % 26));

const numberOfLetters = (letters: string): number =>
  Array.from(letters.toUpperCase()).reduce((n, letter) => n * 26 + letter.charCodeAt(0) - 64, 0);

/**
 * A cell by its place in some cells.
 *
 * @param reference such as "B2", "$B$2:C9" or "'Brew day'!B2"
 * @returns such as "C4", without the sheet
 */
export function cellAt(reference: string, down: number, across: number): string {
  const corner = /\$?([A-Za-z]{1,3})\$?(\d+)(?::\$?[A-Za-z]{1,3}\$?\d+)?#?$/.exec(reference);
  const [, letters, row] = corner ?? [];
  if (letters === undefined || row === undefined) return `row ${down + 1}, column ${across + 1}`;
  return `${lettersOf(numberOfLetters(letters) + across)}${Number(row) + down}`;
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
