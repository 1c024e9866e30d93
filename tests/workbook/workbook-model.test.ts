import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../src/workbook/workbook.js";
import {
  bookOf,
  bookParts,
  buildBook,
  contentTypesXml,
  main,
  relationshipNamespace,
  relationshipsXml,
  sheetXml,
  workbookType,
  zipParts,
} from "../support/build-workbook.js";

const cell = (value: number) => sheetXml(`<row r="1"><c r="A1"><v>${value}</v></c></row>`);

describe("sheets are found through relationships", () => {
  const workbook = (rels: string) =>
    `<workbook xmlns="${main}" xmlns:rel="${relationshipNamespace}"><sheets>` +
    `<sheet name="Brews &amp; bits" sheetId="9" rel:id="x"/><sheet name="Log" sheetId="4" state="hidden" rel:id="${rels}"/>` +
    `</sheets></workbook>`;

  test("wherever their parts are, by relative and absolute targets, in the order of the workbook", async () => {
    const bytes = zipParts({
      "[Content_Types].xml": contentTypesXml(workbookType, { "book/main.xml": workbookType }),
      "_rels/.rels": relationshipsXml({ id: "r", kind: "officeDocument", target: "/book/main.xml" }),
      "book/main.xml": workbook("y"),
      "book/_rels/main.xml.rels": relationshipsXml(
        { id: "y", kind: "worksheet", target: "/Pages/two%20words.xml" },
        { id: "x", kind: "worksheet", target: "./../pages/./One.xml" },
      ),
      "pages/one.xml": cell(1),
      "Pages/two words.xml": cell(2),
    });
    expect((await openWorkbook(bytes)).model.sheets).toEqual([
      { name: "Brews & bits", cells: [{ row: 0, column: 0, value: 1 }] },
      { name: "Log", cells: [{ row: 0, column: 0, value: 2 }] },
    ]);
  });

  test("charts and dialogs are left out, and names limited to them with them", async () => {
    const parts = bookParts({ sheets: { A: cell(1), B: cell(2) } });
    const bytes = zipParts({
      ...parts,
      "xl/workbook.xml":
        `<workbook xmlns="${main}" xmlns:r="${relationshipNamespace}"><sheets><sheet name="Chart" sheetId="1" r:id="c"/>` +
        `<sheet name="A" sheetId="2" r:id="s1"/><sheet name="Dialog" sheetId="3" r:id="d"/>` +
        `<sheet name="B" sheetId="4" r:id="s2"/></sheets><definedNames>` +
        `<definedName name="og" localSheetId="0">1</definedName><definedName name="og" localSheetId="3">B!$A$1</definedName>` +
        `</definedNames></workbook>`,
      "xl/_rels/workbook.xml.rels": relationshipsXml(
        { id: "c", kind: "chartsheet", target: "chartsheets/sheet1.xml" },
        { id: "s1", kind: "worksheet", target: "worksheets/sheet1.xml" },
        { id: "d", kind: "dialogsheet", target: "dialogsheets/sheet1.xml" },
        { id: "s2", kind: "worksheet", target: "worksheets/sheet2.xml" },
      ),
    });
    const { sheets, names } = (await openWorkbook(bytes)).model;
    expect(sheets.map(({ name }) => name)).toEqual(["A", "B"]);
    expect(names).toEqual([{ name: "og", refersTo: "B!$A$1", sheet: "B" }]);
  });
});

describe("names, tables and settings are read", () => {
  test("names of the workbook and of sheets, but neither built-in ones nor macros", async () => {
    const behindSheets =
      '<definedNames><definedName name="FG">S!$B$2:$B$9</definedName>' +
      '<definedName name="Label" localSheetId="0" hidden="1"> "a&amp;b" </definedName>' +
      '<definedName name="_xlnm.Print_Area" localSheetId="0">S!$A$1:$C$9</definedName>' +
      '<definedName name="_xlnm._FilterDatabase" localSheetId="7">S!#REF!</definedName>' +
      '<definedName name="Run" function="1" vbProcedure="1" xlm="true">#NAME?</definedName></definedNames>' +
      '<extLst><ext><definedNames><definedName name="Foreign">1</definedName></definedNames></ext></extLst>';
    expect((await openWorkbook(bookOf("", { behindSheets }))).model.names).toEqual([
      { name: "FG", refersTo: "S!$B$2:$B$9" },
      { name: "Label", refersTo: '"a&b"', sheet: "S" },
    ]);
  });

  test("iteration, only when it is switched on", async () => {
    const iterates = async (behindSheets: string) =>
      (await openWorkbook(bookOf("", { behindSheets }))).model.iterates;
    expect(await iterates('<calcPr calcId="1" iterate="1"/>')).toBe(true);
    expect(await iterates('<calcPr iterate="true"/>')).toBe(true);
    expect(await iterates('<calcPr iterate="0" iterateCount="100"/>')).toBe(false);
    expect(await iterates("")).toBe(false);
  });

  test("tables with their columns, header and totals", async () => {
    const table = (attributes: string, ...columns: string[]) =>
      `<table xmlns="${main}" id="1" name="Table1" ${attributes}><autoFilter ref="A1:B9"/><tableColumns count="2">` +
      `${columns.map((name, i) => `<tableColumn id="${i + 1}" name="${name}"/>`).join("")}</tableColumns></table>`;
    const bytes = buildBook({
      sheets: { S: sheetXml(""), T: sheetXml("") },
      parts: {
        "xl/worksheets/_rels/sheet2.xml.rels": relationshipsXml(
          { id: "a", kind: "table", target: "../tables/table1.xml" },
          { id: "b", kind: "table", target: "/xl/tables/table2.xml" },
        ),
        "xl/tables/table1.xml": table('displayName="Brews" ref="A1:B9"', "No.", "OG_x000a_seen &amp; FG"),
        "xl/tables/table2.xml": table('ref="D2:D5" headerRowCount="0" totalsRowCount="1"', "x"),
      },
    });
    expect((await openWorkbook(bytes)).model.tables).toEqual([
      {
        name: "Brews",
        sheet: "T",
        area: { top: 0, left: 0, bottom: 8, right: 1 },
        headerRows: 1,
        totalsRows: 0,
        columns: ["No.", "OG\nseen & FG"],
      },
      {
        name: "Table1",
        sheet: "T",
        area: { top: 1, left: 3, bottom: 4, right: 3 },
        headerRows: 0,
        totalsRows: 1,
        columns: ["x"],
      },
    ]);
  });
});

test("the existing brew log is read as it was written", async () => {
  const bytes = new Uint8Array(readFileSync(new URL("../workbooks/brew-log-existing.xlsx", import.meta.url)));
  const { sheets, names, tables, iterates } = (await openWorkbook(bytes)).model;
  expect(sheets.map(({ name, cells }) => [name, cells.length])).toEqual([
    ["Batches", 406],
    ["Grist", 62],
    ["Float log 104", 1011],
  ]);
  expect(names).toEqual([
    { name: "FG_seen", refersTo: "Batches!$G$4:$G$41" },
    { name: "OG_seen", refersTo: "Batches!$D$4:$D$41" },
  ]);
  expect([tables, iterates]).toEqual([[], false]);
  expect(sheets[0]?.cells.slice(0, 3)).toEqual([
    { row: 0, column: 0, value: "Quillback Lane Brewery (invented): brew log" },
    { row: 2, column: 0, value: "No." },
    { row: 2, column: 1, value: "Beer" },
  ]);
  expect(sheets[0]?.cells.find(({ row, column }) => row === 3 && column === 9)).toEqual({
    row: 3,
    column: 9,
    value: 4.06875000000002,
    formula: { text: 'IF(G4="","",(D4-G4)*131.25)', kind: "plain" },
  });
});
