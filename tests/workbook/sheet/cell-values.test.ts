import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import type { Cell, CellValue } from "../../../src/workbook/model.js";
import {
  bookOf,
  buildBook,
  main,
  relationshipNamespace,
  sheetXml,
  type Book,
} from "../../support/build-workbook.js";

async function cellsOf(rows: string, more: Omit<Book, "sheets"> = {}): Promise<readonly Cell[]> {
  return (await openWorkbook(bookOf(rows, more))).model.sheets[0]?.cells ?? [];
}

async function valueOf(
  attributes: string,
  content: string,
  more: Omit<Book, "sheets"> = {},
): Promise<CellValue | undefined> {
  return (await cellsOf(`<row r="1"><c r="A1" ${attributes}>${content}</c></row>`, more))[0]?.value;
}

const strings = (...items: string[]): Omit<Book, "sheets"> => ({
  relations: [{ id: "t", kind: "sharedStrings", target: "sharedStrings.xml" }],
  parts: { "xl/sharedStrings.xml": `<sst xmlns="${main}">${items.join("")}</sst>` },
});

describe("values of each type are read", () => {
  test.each([
    ["1.046", 1.046],
    ["-3", -3],
    ["1E-3", 0.001],
    ["6.02e+23", 6.02e23],
    [".5", 0.5],
    ["5.", 5],
    [" 7\n", 7],
    ["4.9406564584124654E-324", 5e-324],
    ["0.1", 0.1],
  ])("the number %s", async (text, value) => {
    expect(await valueOf("", `<v>${text}</v>`)).toBe(value);
    expect(await valueOf('t="n"', `<v>${text}</v>`)).toBe(value);
  });

  test("booleans and errors", async () => {
    expect(await valueOf('t="b"', "<v>1</v>")).toBe(true);
    expect(await valueOf('t="b"', "<v>0</v>")).toBe(false);
    // As LibreOffice 7.4 stores =-FALSE.
    expect(await valueOf('t="b"', "<v>-0</v>")).toBe(false);
    expect(await valueOf('t="e"', "<v>#N/A</v>")).toEqual({ error: "#N/A" });
  });

  test("texts that stand in their cell", async () => {
    expect(await valueOf('t="str"', "<v>Mild &amp; Bitter</v>")).toBe("Mild & Bitter");
    expect(await valueOf('t="inlineStr"', "<is><t>Mild</t></is>")).toBe("Mild");
    expect(await valueOf('t="inlineStr"', "<is><r><rPr><b/></rPr><t>Mi</t></r><r><t>ld</t></r></is>")).toBe(
      "Mild",
    );
    expect(await valueOf('t="str"', "<v></v>")).toBe("");
    expect(await valueOf('t="inlineStr"', "<is/>")).toBe("");
  });

  test("texts from the shared list, runs joined and reading aids left out", async () => {
    const more = strings(
      "<si><t>Stout</t></si>",
      "<si><r><t>Pale </t></r><r><rPr><i/></rPr><t>Ale</t></r></si>",
      '<si><t>麦酒</t><rPh sb="0" eb="2"><t>ばくしゅ</t></rPh><phoneticPr fontId="1"/></si>',
      "<si/>",
      "<si><t><![CDATA[<b>]]>&amp;</t></si>",
    );
    const values = await Promise.all(
      [0, 1, 2, 3, 4].map((index) => valueOf('t="s"', `<v>${index}</v>`, more)),
    );
    expect(values).toEqual(["Stout", "Pale Ale", "麦酒", "", "<b>&"]);
  });

  test("a shared list whose elements carry a prefix", async () => {
    const more = {
      ...strings(),
      parts: { "xl/sharedStrings.xml": `<x:sst xmlns:x="${main}"><x:si><x:t>Porter</x:t></x:si></x:sst>` },
    };
    expect(await valueOf('t="s"', "<v>0</v>", more)).toBe("Porter");
  });

  test("white space at the ends counts only when the file says so, as in Excel", async () => {
    expect(await valueOf('t="inlineStr"', '<is><t xml:space="preserve"> a \n</t></is>')).toBe(" a \n");
    expect(await valueOf('t="inlineStr"', "<is><t> a \n</t></is>")).toBe("a");
    expect(await valueOf('t="inlineStr"', "<is><t>&#9;a b&#10;</t></is>")).toBe("a b");
    expect(await valueOf('t="str"', '<v xml:space="preserve"> a </v>')).toBe(" a ");
    expect(await valueOf('t="str"', "<v> a </v>")).toBe("a");
    expect(await valueOf('t="inlineStr"', "<is><t>\u00a0a\u00a0</t></is>")).toBe("\u00a0a\u00a0");
    const runs = '<is><r><t>hello</t></r><r><t> </t></r><r><t xml:space="preserve">world </t></r></is>';
    expect(await valueOf('t="inlineStr"', runs)).toBe("hello world ");
  });

  test("characters written as _xHHHH_ are decoded once", async () => {
    expect(await valueOf('t="inlineStr"', "<is><t>a_x000D_b</t></is>")).toBe("a\rb");
    expect(await valueOf('t="str"', "<v>_x005F_x000D_</v>")).toBe("_x000D_");
    expect(await valueOf('t="inlineStr"', "<is><t>_x00g0_ _X0041_ _x41_</t></is>")).toBe(
      "_x00g0_ _X0041_ _x41_",
    );
  });

  test("no value is null, and a cell with neither value nor formula is not listed", async () => {
    const rows =
      '<row r="1"><c r="A1" s="1"/><c r="B1" s="1"><v/></c><c r="C1" t="s"><v></v></c><c r="D1"><f>1+1</f></c>' +
      '<c r="E1"><f>1</f><v/></c><c r="F1"><v>0</v></c></row>';
    expect(await cellsOf(rows)).toEqual([
      { row: 0, column: 3, value: null, formula: { text: "1+1", kind: "plain" } },
      { row: 0, column: 4, value: null, formula: { text: "1", kind: "plain" } },
      { row: 0, column: 5, value: 0 },
    ]);
  });
});

describe("dates of type d become serial numbers", () => {
  // Serial numbers as Excel shows them: 25569 is 1 January 1970, 61 is 1 March 1900, 1 is 1 January 1900.
  test.each([
    ["1970-01-01", 25569],
    ["2026-03-01", 46082],
    ["2026-03-01T18:00:00", 46082.75],
    ["2026-03-01T18:00:00.000Z", 46082.75],
    ["1900-03-01", 61],
    ["1900-02-28", 59],
    ["1900-01-01", 1],
    ["T06:00:00", 0.25],
    ["12:00", 0.5],
  ])("%s is %s", async (text, serial) => {
    expect(await valueOf('t="d"', `<v>${text}</v>`)).toBe(serial);
  });

  test("counted from 1904 where the workbook does", async () => {
    const since1904 = { beforeSheets: '<workbookPr date1904="1"/>' };
    expect(await valueOf('t="d"', "<v>1904-01-02</v>", since1904)).toBe(1);
    expect(await valueOf('t="d"', "<v>2026-03-01</v>", since1904)).toBe(46082 - 1462);
    expect((await openWorkbook(bookOf("", since1904))).model.since1904).toBe(true);
    expect((await openWorkbook(bookOf(""))).model).not.toHaveProperty("since1904");
  });

  test.each(["2026-13-01", "2026-3-1", "03/01/2026", "2026-03-01T25:00:00", "2026-03-01 18:00:00"])(
    "%s is refused",
    async (text) => {
      await expect(valueOf('t="d"', `<v>${text}</v>`)).rejects.toThrow(/as type "d" in A1/);
    },
  );
});

describe("places", () => {
  const placesOf = async (rows: string) => (await cellsOf(rows)).map(({ row, column }) => [row, column]);
  const v = "<v>1</v>";

  test("rows and cells without r follow the one before", async () => {
    const rows = `<row><c>${v}</c><c>${v}</c><c r="E1">${v}</c><c>${v}</c></row><row r="4"><c>${v}</c></row><row><c/><c>${v}</c></row>`;
    expect(await placesOf(rows)).toEqual([
      [0, 0],
      [0, 1],
      [0, 4],
      [0, 5],
      [3, 0],
      [4, 1],
    ]);
  });

  test("a row without r takes it from its first cell", async () => {
    expect(await placesOf(`<row><c r="B3">${v}</c><c>${v}</c></row><row><c>${v}</c></row>`)).toEqual([
      [2, 1],
      [2, 2],
      [3, 0],
    ]);
  });

  test("the last cell of a sheet is one", async () => {
    expect(await placesOf(`<row r="1048576"><c r="XFD1048576">${v}</c></row>`)).toEqual([[1048575, 16383]]);
  });

  test("elements of other namespaces among rows and cells are no cells", async () => {
    const xml =
      `<x:worksheet xmlns:x="${main}" xmlns="urn:other"><x:sheetData><row r="1"><c r="A1"><v>1</v></c></row>` +
      `<x:row r="2"><c r="A2"><v>1</v></c><x:c r="B2"><v>9</v><x:v>2</x:v></x:c></x:row></x:sheetData></x:worksheet>`;
    const cells = (await openWorkbook(buildBook({ sheets: { S: xml } }))).model.sheets[0]?.cells;
    expect(cells).toEqual([{ row: 1, column: 1, value: 2 }]);
  });

  test("rows outside sheetData are no rows", async () => {
    const xml = sheetXml("", "", '<extLst><row r="1"><c r="A1"><v>1</v></c></row></extLst>');
    expect((await openWorkbook(buildBook({ sheets: { S: xml } }))).model.sheets[0]?.cells).toEqual([]);
  });
});

test("a strict workbook is read like a transitional one", async () => {
  const strict = (xml: string) =>
    xml
      .replaceAll(main, "http://purl.oclc.org/ooxml/spreadsheetml/main")
      .replaceAll(relationshipNamespace, "http://purl.oclc.org/ooxml/officeDocument/relationships");
  const rows = '<row r="1"><c r="A1" t="d"><v>2026-03-01</v></c></row>';
  const book = buildBook({ sheets: { S: strict(sheetXml(rows)) } });
  expect((await openWorkbook(book)).model.sheets[0]?.cells).toEqual([{ row: 0, column: 0, value: 46082 }]);
});
