import { describe, expect, test } from "vitest";
import type { CellValue } from "../../../src/workbook/model.js";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { bookOf, main, partTexts, sheetXml, type Book } from "../../support/build-workbook.js";
import { expectOnlyChanged, patchedSheet, patchBook } from "../../support/patched.js";

const around = [
  '<row r="1" spans="1:3"><c r="A1" s="1"><v>1</v></c>',
  '<c r="C1"><v>3</v></c></row>',
] as const;
const texts: Omit<Book, "sheets"> = {
  relations: [{ id: "t", kind: "sharedStrings", target: "sharedStrings.xml" }],
  parts: { "xl/sharedStrings.xml": `<sst xmlns="${main}"><si><t>old</t></si></sst>` },
};

/** What the <c> element of B1 becomes; the test fails when anything around it changes. */
async function cellAfter(cell: string, value: CellValue): Promise<string> {
  const [before, behind] = sheetXml(around.join("|")).split("|");
  const xml = await patchedSheet(`${before}${cell}${behind}`, [{ row: 0, column: 1, value }], texts);
  expect(xml.startsWith(before ?? "?")).toBe(true);
  expect(xml.endsWith(behind ?? "?")).toBe(true);
  return xml.slice(before?.length, xml.length - (behind?.length ?? 0));
}

describe("a value is written in the form of its type", () => {
  test.each<[string, CellValue, string]>([
    ["a number over a number", 1.046, '<c r="B1"><v>1.046</v></c>'],
    ["a small number", 1e-7, '<c r="B1"><v>1e-7</v></c>'],
    ["a number with all its digits", 0.1 + 0.2, '<c r="B1"><v>0.30000000000000004</v></c>'],
    ["true", true, '<c r="B1" t="b"><v>1</v></c>'],
    ["false", false, '<c r="B1" t="b"><v>0</v></c>'],
    ["an error", { error: "#N/A" }, '<c r="B1" t="e"><v>#N/A</v></c>'],
    ["an error that files do not know", { error: "#SPILL!" }, '<c r="B1" t="e"><v>#VALUE!</v></c>'],
    [
      "a text",
      "Mild & <b>",
      '<c r="B1" t="inlineStr"><is><t xml:space="preserve">Mild &amp; &lt;b&gt;</t></is></c>',
    ],
    ["an empty text", "", '<c r="B1" t="inlineStr"><is><t xml:space="preserve"></t></is></c>'],
    ["nothing", null, '<c r="B1"></c>'],
  ])("%s", async (_what, value, expected) => {
    expect(await cellAfter('<c r="B1"><v>7</v></c>', value)).toBe(expected);
  });

  test.each<[string, CellValue, string]>([
    ["a number", 2, '<c r="B1"><f>A1&amp;""</f><v>2</v></c>'],
    ["a text", "x", '<c r="B1" t="str"><f>A1&amp;""</f><v>x</v></c>'],
    ["a text with outer space", " x", '<c r="B1" t="str"><f>A1&amp;""</f><v xml:space="preserve"> x</v></c>'],
    ["an empty text", "", '<c r="B1" t="str"><f>A1&amp;""</f><v></v></c>'],
    ["nothing", null, '<c r="B1"><f>A1&amp;""</f></c>'],
    ["an error", { error: "#BUSY!" }, '<c r="B1" t="e"><f>A1&amp;""</f><v>#VALUE!</v></c>'],
  ])("%s beside a formula, which stays as it is", async (_what, value, expected) => {
    expect(await cellAfter('<c r="B1"><f>A1&amp;""</f><v>7</v></c>', value)).toBe(expected);
  });

  test.each<[string, CellValue, string]>([
    ['<c r="B1" s="4"/>', 5, '<c r="B1" s="4"><v>5</v></c>'],
    ['<c r="B1" s="4" />', "x", '<c r="B1" s="4" t="inlineStr" ><is><t xml:space="preserve">x</t></is></c>'],
    ["<c r='B1' s='4'></c>", true, "<c r='B1' s='4' t=\"b\"><v>1</v></c>"],
    ["<c/>", 5, "<c><v>5</v></c>"],
    ['<c r="B1" s="4" t="n"><v>7</v></c>', 5, '<c r="B1" s="4" t="n"><v>5</v></c>'],
    [
      '<c r="B1" t="n" s="4"><v>7</v></c>',
      "x",
      '<c r="B1" t="inlineStr" s="4"><is><t xml:space="preserve">x</t></is></c>',
    ],
    ['<c r="B1" t="s" s="4"><v>0</v></c>', 5, '<c r="B1" s="4"><v>5</v></c>'],
    ['<c t="s"\n r="B1"><v>0</v></c>', 5, '<c\n r="B1"><v>5</v></c>'],
    ['<c r="B1" t="d"><v>2026-03-01</v></c>', 5, '<c r="B1"><v>5</v></c>'],
    ['<c r="B1" t="inlineStr"><is><r><t>x</t></r></is></c>', 5, '<c r="B1"><v>5</v></c>'],
    ['<c r="B1" cm="3" vm="2" ph="1"><v>7</v></c>', 5, '<c r="B1" cm="3" ph="1"><v>5</v></c>'],
    ['<c r="B1">\n <f ca="1">1</f>\n <v>7</v>\n</c>', 5, '<c r="B1">\n <f ca="1">1</f>\n <v>5</v>\n</c>'],
    [
      '<c r="B1"><f>1</f><!-- x --><v>7</v><extLst/></c>',
      5,
      '<c r="B1"><f>1</f><!-- x --><v>5</v><extLst/></c>',
    ],
    ['<c r="B1"><f>1</f><extLst/></c>', 5, '<c r="B1"><f>1</f><v>5</v><extLst/></c>'],
    ['<c r="B1"><v/></c>', 5, '<c r="B1"><v>5</v></c>'],
    ['<c r="B1" t="inlineStr"><v>a</v><is><t>b</t></is></c>', 5, '<c r="B1"><v>5</v></c>'],
  ])("%s to %s", async (cell, value, expected) => {
    expect(await cellAfter(cell, value)).toBe(expected);
  });

  test("with the prefix that the sheet uses", async () => {
    const sheet = (cells: string) =>
      `<x:worksheet xmlns:x="${main}"><x:sheetData><x:row r="1">${cells}</x:row></x:sheetData></x:worksheet>`;
    const before = sheet('<x:c r="A1"><x:v>1</x:v></x:c><x:c r="B1" s="1"/>');
    const changes = [
      { row: 0, column: 0, value: "y" },
      { row: 0, column: 1, value: 2 },
      { row: 0, column: 2, value: 3 },
    ];
    expect(await patchedSheet(before, changes)).toBe(
      sheet(
        '<x:c r="A1" t="inlineStr"><x:is><x:t xml:space="preserve">y</x:t></x:is></x:c><x:c r="B1" s="1"><x:v>2</x:v></x:c>' +
          '<x:c r="C1"><x:v>3</x:v></x:c>',
      ),
    );
  });
});

describe("a value that is there already leaves the bytes alone", () => {
  test.each<[string, CellValue]>([
    ['<c r="B1" t="n"  s="1"><v> 7.0E0 </v></c>', 7],
    ['<c r="B1" t="s" vm="1"><v>0</v></c>', "old"],
    ['<c r="B1" t="inlineStr"><is><r><t>o</t></r><r><t>ld</t></r></is></c>', "old"],
    ['<c r="B1" t="str"><v>old</v></c>', "old"],
    ['<c r="B1" t="b"><f>TRUE</f><v>1</v></c>', true],
    ['<c r="B1" t="e" vm="1"><f>1/0</f><v>#DIV/0!</v></c>', { error: "#DIV/0!" }],
    ['<c r="B1" t="e"><v>#VALUE!</v></c>', { error: "#CALC!" }],
    ['<c r="B1" t="d"><v>1970-01-01</v></c>', 25569],
    ['<c r="B1" s="3"/>', null],
    ['<c r="B1"><f>1</f></c>', null],
  ])("%s", async (cell, value) => {
    expect(await cellAfter(cell, value)).toBe(cell);
  });

  test.each<[string, CellValue]>([
    ['<c r="B1"><v>1</v></c>', true],
    ['<c r="B1"><v>1</v></c>', "1"],
    ['<c r="B1" t="b"><v>1</v></c>', 1],
    ['<c r="B1" t="str"><v></v></c>', null],
    ['<c r="B1" t="str"><v>#N/A</v></c>', { error: "#N/A" }],
    ['<c r="B1" t="e"><v>#N/A</v></c>', "#N/A"],
    ['<c r="B1"/>', ""],
  ])("but %s is not the same as %j", async (cell, value) => {
    expect(await cellAfter(cell, value)).not.toBe(cell);
  });
});

describe("a value that no cell can hold", () => {
  const patch = (value: CellValue) => patchBook(bookOf(""), [{ sheet: "S", row: 0, column: 0, value }]);

  test.each([NaN, Infinity, -Infinity])("%s is refused", async (value) => {
    await expect(patch(value)).rejects.toThrow(RangeError);
  });

  test("a text of more than 32,767 characters is refused", async () => {
    await expect(patch("x".repeat(32_767))).resolves.toBeDefined();
    await expect(patch("x".repeat(32_768))).rejects.toThrow(RangeError);
  });

  test("a sheet or place that is not there is refused by what it is", async () => {
    const change = (sheet: string, row: number, column: number) =>
      patchBook(bookOf(""), [{ sheet, row, column, value: 1 }]);
    await expect(change("T", 0, 0)).rejects.toThrow('has no sheet "T"');
    for (const [row, column] of [
      [-1, 0],
      [1_048_576, 0],
      [0, 16_384],
      [0.5, 0],
      [0, NaN],
    ] as const) {
      await expect(change("S", row, column)).rejects.toThrow(/^has no cell in row/);
    }
    await expect(change("S", 1_048_575, 16_383)).resolves.toBeDefined();
  });
});

describe("everything else stays byte for byte", () => {
  test("byte order mark, line ends, comments, instructions, CDATA and characters of all planes", async () => {
    const before =
      `\uFEFF<?xml version="1.0" encoding="UTF-8"?>\r\n<!-- \u{1F37A} -->\r\n<?mso x?>` +
      `<worksheet xmlns="${main}">\r\n\t<sheetData>\r\n<row r="1"><!-- <c r="A1"> --><c r="A1" t="str"><v><![CDATA[\u{1F37A}<]]></v></c>\r\n` +
      `<c r="B1"><v>7</v></c></row>\r\n</sheetData>\r\n<oddHeader>&#169;\u{10FFFF}</oddHeader></worksheet>\r\n<!-- end -->`;
    const after = await patchedSheet(before, [{ row: 0, column: 1, value: 8 }]);
    expect(after).toBe(before.replace("<v>7</v>", "<v>8</v>"));
  });

  test("and the same patch gives the same bytes, and leaves the opened workbook as it was", async () => {
    const book = await openWorkbook(bookOf(around.join("")));
    const change = [{ sheet: "S", row: 0, column: 0, value: 9 }];
    const first = await book.patch(change);
    expect(await book.patch(change)).toEqual(first);
    expect((await openWorkbook(await book.patch([]))).model).toEqual(book.model);
    expectOnlyChanged(bookOf(around.join("")), await book.patch([]), []);
  });

  test("of several changes to one cell the last counts", async () => {
    const patched = await patchBook(bookOf(around.join("")), [
      { sheet: "S", row: 0, column: 0, value: 8 },
      { sheet: "S", row: 0, column: 0, value: 1 },
    ]);
    expectOnlyChanged(bookOf(around.join("")), patched, []);
    expect(partTexts(patched).size).toBe(5);
  });
});
