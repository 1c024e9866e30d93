import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { buildBook, main, sheetXml } from "../../support/build-workbook.js";
import { patchedSheet, type Change, patchBook } from "../../support/patched.js";

const set = (row: number, column: number, value = 5): Change => ({ row, column, value });
const rowsAfter = (rows: string, ...changes: Change[]) => patchedSheet(sheetXml(rows), changes);

describe("a new cell goes where it belongs in its row", () => {
  const row = '<row r="2"> <c r="B2"><v>1</v></c> <c r="D2"/> </row>';

  test.each([
    ["before the first", 0, '<row r="2"> <c r="A2"><v>5</v></c><c r="B2"><v>1</v></c> <c r="D2"/> </row>'],
    ["between", 2, '<row r="2"> <c r="B2"><v>1</v></c> <c r="C2"><v>5</v></c><c r="D2"/> </row>'],
    ["behind the last", 27, '<row r="2"> <c r="B2"><v>1</v></c> <c r="D2"/> <c r="AB2"><v>5</v></c></row>'],
  ])("%s", async (_where, column, expected) => {
    expect(await rowsAfter(row, set(1, column))).toBe(sheetXml(expected));
  });

  test("several in order, beside changed ones", async () => {
    const changes = [set(1, 4, 4), set(1, 0, 0), set(1, 1, 1.5), set(1, 2, 2), set(1, 3, 3)];
    expect(await rowsAfter(row, ...changes)).toBe(
      sheetXml(
        '<row r="2"> <c r="A2"><v>0</v></c><c r="B2"><v>1.5</v></c> <c r="C2"><v>2</v></c><c r="D2"><v>3</v></c> ' +
          '<c r="E2"><v>4</v></c></row>',
      ),
    );
  });

  test("in a row of one tag, or an empty one", async () => {
    expect(await rowsAfter('<row r="2" ht="20" />', set(1, 0), set(1, 2))).toBe(
      sheetXml('<row r="2" ht="20" ><c r="A2"><v>5</v></c><c r="C2"><v>5</v></c></row>'),
    );
    expect(await rowsAfter('<row r="2"></row>', set(1, 0))).toBe(
      sheetXml('<row r="2"><c r="A2"><v>5</v></c></row>'),
    );
  });

  test("among cells that do not say their place", async () => {
    expect(await rowsAfter("<row><c><v>1</v></c></row><row><c/></row>", set(0, 2), set(1, 1))).toBe(
      sheetXml('<row><c><v>1</v></c><c r="C1"><v>5</v></c></row><row><c/><c r="B2"><v>5</v></c></row>'),
    );
  });

  test("but none is made for no value", async () => {
    expect(await rowsAfter(row, { row: 1, column: 0, value: null }, { row: 9, column: 0, value: null })).toBe(
      sheetXml(row),
    );
  });
});

describe("a new row goes where it belongs", () => {
  const rows = '\n<row r="2"><c r="A2"/></row>\n<row r="5"/>\n';
  const added = (row: number) => `<row r="${row}"><c r="A${row}"><v>5</v></c></row>`;

  test.each([
    ["before the first", 1, `\n${added(1)}<row r="2"><c r="A2"/></row>\n<row r="5"/>\n`],
    ["between", 4, `\n<row r="2"><c r="A2"/></row>\n${added(4)}<row r="5"/>\n`],
    ["behind the last", 9, `\n<row r="2"><c r="A2"/></row>\n<row r="5"/>\n${added(9)}`],
  ])("%s", async (_where, row, expected) => {
    expect(await rowsAfter(rows, set(row - 1, 0))).toBe(sheetXml(expected));
  });

  test("several in order, with several cells", async () => {
    expect(await rowsAfter(rows, set(3, 1), set(2, 0), set(3, 0))).toBe(
      sheetXml(
        `\n<row r="2"><c r="A2"/></row>\n${added(3)}<row r="4"><c r="A4"><v>5</v></c><c r="B4"><v>5</v></c></row><row r="5"/>\n`,
      ),
    );
  });

  test("in a sheet without rows, however that is written", async () => {
    const empty = (data: string) => `<worksheet xmlns="${main}">${data}<pageMargins/></worksheet>`;
    const filled = empty(`<sheetData>${added(3)}${added(7)}</sheetData>`);
    expect(await patchedSheet(empty("<sheetData/>"), [set(6, 0), set(2, 0)])).toBe(filled);
    expect(await patchedSheet(empty("<sheetData></sheetData>"), [set(6, 0), set(2, 0)])).toBe(filled);
    const prefixed = `<x:worksheet xmlns:x="${main}"><x:sheetData/></x:worksheet>`;
    expect(await patchedSheet(prefixed, [set(0, 0)])).toBe(
      `<x:worksheet xmlns:x="${main}"><x:sheetData><x:row r="1"><x:c r="A1"><x:v>5</x:v></x:c></x:row></x:sheetData></x:worksheet>`,
    );
  });
});

describe("the bounds that a sheet says of itself follow", () => {
  const row = (spans: string, cells: string) => `<row r="1" spans="${spans}" ht="20">${cells}</row>`;
  const b1 = '<c r="B1"><v>1</v></c>';

  test.each([
    ["2:2", 0, "1:2"],
    ["2:2", 3, "2:4"],
    ["2:4", 2, "2:4"],
  ])("columns in use: spans %s with a cell in column %s become %s", async (before, column, after) => {
    const xml = await rowsAfter(row(before, b1), set(0, column));
    expect(xml).toContain(`<row r="1" spans="${after}" ht="20">`);
  });

  test("a list of spans, or one that is none, is dropped when a cell comes", async () => {
    for (const spans of ["1:2 5:7", "2", "a:b"]) {
      expect(await rowsAfter(row(spans, b1), set(0, 4))).toContain('<row r="1" ht="20">');
      expect(await rowsAfter(row(spans, b1), set(0, 1))).toContain(`<row r="1" spans="${spans}" ht="20">`);
    }
  });

  test("a row of one tag keeps its spans up to date too", async () => {
    expect(await rowsAfter('<row r="1" spans="2:2"/>', set(0, 0))).toBe(
      sheetXml('<row r="1" spans="1:2"><c r="A1"><v>5</v></c></row>'),
    );
  });

  test.each([
    ["B2:C3", [set(0, 0)], "A1:C3"],
    ["B2:C3", [set(9, 1), set(1, 9)], "B2:J10"],
    ["B2:C3", [set(1, 1)], "B2:C3"],
    ["A1", [set(0, 0)], "A1"],
    ["A1:A1", [set(0, 0)], "A1:A1"],
    ["A1", [set(1, 1)], "A1:B2"],
    ["nowhere", [set(1, 1)], "nowhere"],
  ])("dimension %s", async (before, changes, after) => {
    const sheet = (ref: string) => sheetXml("", `<sheetPr/><dimension ref="${ref}"/>`);
    expect(await patchedSheet(sheet(before), changes)).toContain(`<dimension ref="${after}"/><sheetData>`);
  });

  test("a change of a cell that is there does not touch them", async () => {
    const xml = sheetXml('<row r="9" spans="1:1"><c r="Z9"/></row>', '<dimension ref="A1"/>');
    expect(await patchedSheet(xml, [set(8, 25)])).toBe(xml.replace('<c r="Z9"/>', '<c r="Z9"><v>5</v></c>'));
  });
});

test("changes to many sheets each go to their own", async () => {
  const sheets = {
    A: sheetXml('<row r="1"><c r="A1"><v>1</v></c></row>'),
    "B &amp; C": sheetXml(""),
    D: sheetXml(""),
  };
  const patched = await patchBook(buildBook({ sheets }), [
    { sheet: "B & C", row: 0, column: 0, value: "b" },
    { sheet: "A", row: 0, column: 0, value: "a" },
  ]);
  const values = (await openWorkbook(patched)).model.sheets.map(({ name, cells }) => [
    name,
    cells.map(({ value }) => value),
  ]);
  expect(values).toEqual([
    ["A", ["a"]],
    ["B & C", ["b"]],
    ["D", []],
  ]);
});
