import { openWorkbook } from "../../src/workbook/workbook.js";
import type { CellValue } from "../../src/workbook/model.js";
import { buildBook, sheetXml } from "../support/build-workbook.js";
import { convert } from "../support/libreoffice.js";

const escaped = (text: string): string => text.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);

function cellXml(address: string, value: number | string): string {
  return typeof value === "number"
    ? `<c r="${address}"><v>${value}</v></c>`
    : `<c r="${address}" t="inlineStr"><is><t>${escaped(value)}</t></is></c>`;
}

/**
 * What LibreOffice makes of formulas beside the cells of a sheet named Data. The formulas must be written as in files,
 * with the prefixes of newer functions.
 */
export async function libreOfficeResults(
  formulas: readonly string[],
  data: Readonly<Record<string, number | string>>,
): Promise<CellValue[]> {
  const rows = new Map<number, string>();
  for (const [address, value] of Object.entries(data)) {
    const row = Number(/\d+/.exec(address)?.[0]);
    rows.set(row, (rows.get(row) ?? "") + cellXml(address, value));
  }
  const dataRows = [...rows]
    .sort(([a], [b]) => a - b)
    .map(([row, cells]) => `<row r="${row}">${cells}</row>`);
  const formulaRows = formulas.map(
    (text, i) => `<row r="${i + 1}"><c r="A${i + 1}"><f>${escaped(text)}</f></c></row>`,
  );
  const book = buildBook({
    sheets: { Formulas: sheetXml(formulaRows.join("")), Data: sheetXml(dataRows.join("")) },
  });
  const cells = (await openWorkbook(await convert(book, "xlsx"))).model.sheets[0]?.cells ?? [];
  const values = new Map(cells.map(({ row, value }) => [row, value]));
  return formulas.map((_, i) => values.get(i) ?? null);
}
