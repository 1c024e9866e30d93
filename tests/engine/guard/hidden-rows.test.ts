// SUBTOTAL and AGGREGATE over rows that are not shown, held to LibreOffice.
import { beforeAll, describe, expect, test } from "vitest";
import { recalculate } from "../../../src/engine/recalculate.js";
import type { CellValue } from "../../../src/workbook/model.js";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { buildBook, main, relationshipsXml, sheetXml } from "../../support/build-workbook.js";
import { convert } from "../../support/libreoffice.js";
import { libreOffice } from "../../support/tools.js";
import { fakeFunctions } from "../fixture.js";

const ROWS = [1, 2, 3, 4, 5, 6, 7, 8];
/** Each row doubles the one above, so that a sum tells which rows are in it. */
const value = (row: number): number => 2 ** (row - 1);
const FORMULAS = [
  "SUBTOTAL(9,Data!B1:B8)",
  "SUBTOTAL(109,Data!B1:B8)",
  ...[0, 1, 2, 3, 4, 5, 6, 7].map((option) => `_xlfn.AGGREGATE(9,${option},Data!B1:B8)`),
  "_xlfn.AGGREGATE(14,4,Data!B1:B8,1)",
  "_xlfn.AGGREGATE(14,5,Data!B1:B8,1)",
];

/** Rows of numbers in column A, which our function passes on to column B. */
function data(marks: Readonly<Record<number, string>>, before = "", behind = ""): string {
  const cells = (row: number): string =>
    `<c r="A${row}"><v>${value(row)}</v></c><c r="B${row}"><f>_xldudf_GYLE_IDENTITY(A${row})</f><v>1</v></c>`;
  const heading = '<c r="A1" t="inlineStr"><is><t>x</t></is></c><c r="B1"><v>1</v></c>';
  const rows = ROWS.map(
    (row) => `<row r="${row}" ${marks[row] ?? ""}>${row === 1 ? heading : cells(row)}</row>`,
  );
  return sheetXml(rows.join(""), before, behind);
}

const hidden = { 3: 'hidden="1"', 5: 'hidden="true"', 7: 'hidden="1"', 8: 'hidden="0"' };
const filter =
  '<autoFilter ref="A1:A5"><filterColumn colId="0"><filters><filter val="2"/><filter val="8"/></filters></filterColumn></autoFilter>';

/** Sheets named Data1 and so on. */
const cases: readonly (readonly [what: string, sheet: string])[] = [
  ["by hand", data(hidden)],
  ["by a filter and by hand", data(hidden, "", filter)],
  ["by the filter of a table", data(hidden, "", '<tableParts count="1"><tablePart r:id="t1"/></tableParts>')],
  [
    "because they are folded away in an outline",
    data({ 3: 'outlineLevel="1" hidden="1"', 4: 'outlineLevel="1" hidden="1"', 5: 'collapsed="1"' }),
  ],
  [
    "nowhere, in a sheet that hides the rows it does not list",
    data({ 3: 'ht="15"' }, '<sheetFormatPr defaultRowHeight="15" zeroHeight="1"/>'),
  ],
];

/** @param stored what the formulas show in the file, case by case */
function book(sheets: readonly string[], stored: readonly number[]): Uint8Array {
  const texts = sheets.flatMap((_, i) => FORMULAS.map((text) => text.replace("Data!", `Data${i + 1}!`)));
  const rows = texts.map((text, i) => {
    const shown = stored[i] === undefined ? "" : `<v>${stored[i]}</v>`;
    return `<row r="${i + 1}"><c r="A${i + 1}"><f>${text}</f>${shown}</c></row>`;
  });
  return buildBook({
    sheets: {
      Formulas: sheetXml(rows.join("")),
      ...Object.fromEntries(sheets.map((sheet, i) => [`Data${i + 1}`, sheet])),
    },
    behindSheets:
      '<definedNames><definedName name="_xlnm._FilterDatabase" localSheetId="2" hidden="1">Data2!$A$1:$A$5</definedName></definedNames>',
    overrides: {
      "xl/tables/table1.xml": "application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml",
    },
    parts: {
      "xl/tables/table1.xml": `<table xmlns="${main}" id="1" name="T" displayName="T" ref="A1:A5" totalsRowShown="0">${filter}<tableColumns count="1"><tableColumn id="1" name="x"/></tableColumns></table>`,
      "xl/worksheets/_rels/sheet4.xml.rels": relationshipsXml({
        id: "t1",
        kind: "table",
        target: "../tables/table1.xml",
      }),
    },
  });
}

/** What the formulas come to here, case by case. */
async function recalculated(stored: readonly number[], uncalculated: boolean): Promise<CellValue[][]> {
  const sheets = cases.map(([, sheet]) => sheet);
  const { model } = await openWorkbook(book(sheets, stored));
  const { changes, notes } = recalculate(model, fakeFunctions(), { uncalculated });
  expect(notes).toEqual([]);
  const fresh = new Map(
    changes.filter(({ sheet }) => sheet === "Formulas").map((each) => [each.row, each.value]),
  );
  return byCase(model.sheets[0]?.cells.map(({ row, value: was }) => fresh.get(row) ?? was) ?? []);
}

const byCase = <T>(values: readonly T[]): T[][] =>
  cases.map((_, i) => values.slice(i * FORMULAS.length, (i + 1) * FORMULAS.length));

/** In the file ours show 1 in every row, as the heading does: a sum is how many rows are in it, the largest of them 1. */
const asStored = (expected: number, formula: string): number =>
  formula.includes("(14,") ? 1 : expected.toString(2).replaceAll("0", "").length;

describe.skipIf(!libreOffice.present)(
  "rows that are hidden are left out where LibreOffice leaves them out",
  () => {
    let expected: number[][] = [];
    beforeAll(async () => {
      // It knows no function of ours, so it gets the numbers that ours pass on.
      const plain = cases.map(([, sheet]) =>
        sheet.replace(
          /<f>_xldudf_GYLE_IDENTITY\(A(\d)\)<\/f><v>1<\/v>/g,
          (_, row) => `<v>${value(Number(row))}</v>`,
        ),
      );
      const { model } = await openWorkbook(await convert(book(plain, []), "xlsx"));
      expected = byCase(model.sheets[0]?.cells.map((cell) => Number(cell.value)) ?? []);
      expect(expected.map((each) => each.length)).toEqual(cases.map(() => FORMULAS.length));
    }, 60_000);

    test("in a workbook that a program has calculated before", async () => {
      const stored = expected.flatMap((each) => each.map((sum, i) => asStored(sum, FORMULAS[i] ?? "")));
      expect(named(await recalculated(stored, false))).toEqual(named(expected));
    });

    test("in a workbook that no program has calculated yet", async () => {
      expect(named(await recalculated([], true))).toEqual(named(expected));
    });
  },
);

const named = <T>(results: readonly T[]): Record<string, T | undefined> =>
  Object.fromEntries(cases.map(([what], i) => [what, results[i]]));
