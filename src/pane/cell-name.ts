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
