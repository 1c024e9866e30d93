/** Rows of texts for cells. */
export type Texts = readonly (readonly string[])[];

/** Cell texts from a clipboard: those of its table, or else of its lines. */
export function pastedTexts(html: string, text: string): Texts {
  return (html === "" ? undefined : tableTexts(html)) ?? lineTexts(text);
}

/** Cells are separated by tabs; one that contains line breaks or tabs is quoted, as spreadsheet programs write it. */
export function lineTexts(text: string): Texts {
  const rows: string[][] = [[]];
  const piece = /"((?:[^"]|"")*)"(?=[\t\r\n]|$)|[^\t\r\n]*/y;
  const end = /\t|\r\n|\r|\n|$/y;
  for (let at = 0; at < text.length || at === 0;) {
    piece.lastIndex = at;
    const [cell = "", quoted] = piece.exec(text) ?? [];
    const isWrapped = quoted !== undefined && /[\t\r\n]/.test(quoted);
    rows.at(-1)?.push(isWrapped ? quoted.replaceAll('""', '"').replaceAll("\r\n", "\n") : cell);
    end.lastIndex = at + cell.length;
    const [mark = ""] = end.exec(text) ?? [];
    at += cell.length + mark.length;
    if (mark === "") break;
    if (mark !== "\t" && at < text.length) rows.push([]);
    if (mark === "\t" && at === text.length) rows.at(-1)?.push("");
  }
  return rows;
}

/** @returns undefined for a page that contains more than a table: its text is more faithful */
function tableTexts(html: string): Texts | undefined {
  const { body } = new DOMParser().parseFromString(html, "text/html");
  const rows = [...body.querySelectorAll("tr")];
  const texts: string[][] = rows.map(() => []);
  for (const [r, row] of rows.entries()) {
    let column = 0;
    for (const cell of row.cells) {
      while (texts[r]?.[column] !== undefined) column++;
      // Merged cells are blank except for the first.
      for (let down = 0; down < cell.rowSpan; down++)
        for (let right = 0; right < cell.colSpan; right++) {
          const line = texts[r + down];
          if (line) line[column + right] = down + right === 0 ? cellText(cell) : "";
        }
    }
  }
  for (const table of body.querySelectorAll("table, style")) table.remove();
  if (texts.length === 0 || body.textContent.trim() !== "") return undefined;
  const width = Math.max(...texts.map(({ length }) => length));
  return texts.map((line) => Array.from({ length: width }, (_, column) => line[column] ?? ""));
}

/** Line breaks in the page's source are ignored, those of <br> are kept. */
function cellText(cell: HTMLTableCellElement): string {
  const copy = cell.cloneNode(true) as HTMLTableCellElement;
  for (const node of copy.querySelectorAll("br")) node.replaceWith("\u2028");
  return copy.textContent
    .replace(/[\t\r\n ]+/g, " ")
    .replaceAll("\u00a0", " ")
    .trim()
    .replace(/ ?\u2028 ?/g, "\n");
}
