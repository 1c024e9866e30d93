import { describe, expect, test } from "vitest";
import type { Formula } from "../../../src/workbook/model.js";
import { bookOf, main, partText, sheetXml, type Book } from "../../support/build-workbook.js";
import { expectOnlyChanged, patchedSheet, patchBook } from "../../support/patched.js";

const b1 = { row: 0, column: 1 };
const plain = (text: string): Formula => ({ text, kind: "plain" });
const cellAfter = async (
  cell: string,
  change: { value: number | string | null; formula?: Formula | null },
) => {
  const [before = "", behind = ""] = sheetXml('<row r="1">|</row>').split("|");
  const xml = await patchedSheet(before + cell + behind, [{ ...b1, ...change }]);
  return xml.slice(before.length, xml.length - behind.length);
};

describe("plain formulas", () => {
  test.each<[string, string, { value: number | string | null; formula?: Formula | null }, string]>([
    [
      "set on a value",
      '<c r="B1" s="1"><v>7</v></c>',
      { value: 8, formula: plain("A1<2&C1") },
      '<c r="B1" s="1"><f>A1&lt;2&amp;C1</f><v>8</v></c>',
    ],
    [
      "set, the value staying",
      '<c r="B1"><v>7.0</v></c>',
      { value: 7, formula: plain("7") },
      '<c r="B1"><f>7</f><v>7.0</v></c>',
    ],
    [
      "set on a blank",
      '<c r="B1" s="1"/>',
      { value: null, formula: plain("A1") },
      '<c r="B1" s="1"><f>A1</f></c>',
    ],
    [
      "set in a new cell",
      "",
      { value: "x", formula: plain("A1") },
      '<c r="B1" t="str"><f>A1</f><v>x</v></c>',
    ],
    [
      "set on a text, which then is a result",
      '<c r="B1" t="inlineStr"><is><t>x</t></is></c>',
      { value: "x", formula: plain("A1") },
      '<c r="B1" t="str"><f>A1</f><v>x</v></c>',
    ],
    [
      "replaced",
      '<c r="B1"> <f ca="1">A1</f> <v>7</v></c>',
      { value: 7, formula: plain("A2") },
      '<c r="B1"> <f>A2</f> <v>7</v></c>',
    ],
    [
      "removed where a damaged file has two",
      '<c r="B1"><f>A1</f><f>A2</f><v>7</v></c>',
      { value: 7, formula: null },
      '<c r="B1"><v>7</v></c>',
    ],
    [
      "replaced where a damaged file has two",
      '<c r="B1"><f>A1</f><f>A2</f><v>7</v></c>',
      { value: 8, formula: plain("A3") },
      '<c r="B1"><f>A3</f><v>8</v></c>',
    ],
    [
      "replaced when of one tag",
      '<c r="B1"><f/><v>7</v></c>',
      { value: 7, formula: plain("A2") },
      '<c r="B1"><f>A2</f><v>7</v></c>',
    ],
    [
      "given as they are",
      '<c r="B1"><f ca="1">A1&amp;&quot;&quot;</f><v>7</v></c>',
      { value: 8, formula: plain('A1&""') },
      '<c r="B1"><f ca="1">A1&amp;&quot;&quot;</f><v>8</v></c>',
    ],
    ["removed", '<c r="B1"><f>A1</f><v>7</v></c>', { value: 7, formula: null }, '<c r="B1"><v>7</v></c>'],
    [
      "removed from a result, which then is a text",
      '<c r="B1" t="str"><f>A1</f><v>x</v></c>',
      { value: "x", formula: null },
      '<c r="B1" t="inlineStr"><is><t xml:space="preserve">x</t></is></c>',
    ],
    [
      "removed with the value",
      '<c r="B1" s="1"><f>A1</f><v>7</v></c>',
      { value: null, formula: null },
      '<c r="B1" s="1"></c>',
    ],
    [
      "removed where there is none",
      '<c r="B1"><v>7</v></c>',
      { value: 7, formula: null },
      '<c r="B1"><v>7</v></c>',
    ],
    [
      "removed from a data table",
      '<c r="B1"><f t="dataTable" ref="B1:B3"/><v>7</v></c>',
      { value: 7, formula: null },
      '<c r="B1"><v>7</v></c>',
    ],
  ])("%s", async (_what, cell, change, expected) => {
    expect(await cellAfter(cell, change)).toBe(expected);
  });

  test("keep the value of a data table's cell a result", async () => {
    expect(await cellAfter('<c r="B1"><f t="dataTable" ref="B1:B3"/><v>7</v></c>', { value: "x" })).toBe(
      '<c r="B1" t="str"><f t="dataTable" ref="B1:B3"/><v>x</v></c>',
    );
  });
});

describe("array formulas", () => {
  const area = { top: 0, left: 1, bottom: 2, right: 1 };
  const array: Formula = { text: "ROW(1:3)", kind: "array", area };

  test("are written over their area, or their own cell", async () => {
    expect(await cellAfter("", { value: 1, formula: array })).toBe(
      '<c r="B1"><f t="array" ref="B1:B3">ROW(1:3)</f><v>1</v></c>',
    );
    expect(await cellAfter("", { value: 1, formula: { text: "1", kind: "array" } })).toBe(
      '<c r="B1"><f t="array" ref="B1">1</f><v>1</v></c>',
    );
  });

  test("of another area only get a new ref", async () => {
    const cell = '<c r="B1" s="2"><f aca="1" t="array" ref="B1:B9" ca="1">ROW(1:3)</f><v>1</v></c>';
    expect(await cellAfter(cell, { value: 1, formula: array })).toBe(cell.replace("B1:B9", "B1:B3"));
    expect(await cellAfter(cell, { value: 1, formula: { text: "ROW(1:3)", kind: "array" } })).toBe(cell);
  });

  test("become plain ones and back", async () => {
    const cell = '<c r="B1"><f t="array" ref="B1:B3">ROW(1:3)</f><v>1</v></c>';
    expect(await cellAfter(cell, { value: 1, formula: plain("ROW(1:3)") })).toBe(
      '<c r="B1"><f>ROW(1:3)</f><v>1</v></c>',
    );
    expect(await cellAfter('<c r="B1"><f>ROW(1:3)</f><v>1</v></c>', { value: 1, formula: array })).toBe(cell);
  });
});

describe("the calculation chain", () => {
  const chain: Omit<Book, "sheets"> = {
    relations: [
      { id: "k", kind: "calcChain", target: "calcChain.xml" },
      { id: "z", kind: "theme", target: "theme.xml" },
    ],
    overrides: {
      "xl/calcChain.xml": "application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml",
    },
    parts: {
      "xl/calcChain.xml": `<calcChain xmlns="${main}"><c r="B1" i="1"/></calcChain>`,
      "xl/theme.xml": "<t/>",
    },
  };
  const sheet = "xl/worksheets/sheet1.xml";
  const before = bookOf('<row r="1"><c r="B1"><f t="array" ref="B1:B2">1</f><v>1</v></c></row>', chain);
  const after = (change: object) => patchBook(before, [{ sheet: "S", ...b1, value: 2, ...change }]);

  test("stays when values or the area of a formula change", async () => {
    const area = { top: 0, left: 1, bottom: 4, right: 1 };
    expectOnlyChanged(before, await after({}), [sheet]);
    expectOnlyChanged(before, await after({ formula: { text: "1", kind: "array", area } }), [sheet]);
  });

  test("stays when a formula is removed that is not there", async () => {
    expectOnlyChanged(before, await after({ column: 0, formula: null }), [sheet]);
    const blank = bookOf('<row r="1"><c r="B1" s="1"/></row>', chain);
    const patched = await patchBook(blank, [{ sheet: "S", ...b1, value: null, formula: null }]);
    expectOnlyChanged(blank, patched, []);
  });

  test.each([
    ["set", { column: 5, formula: plain("1") }],
    ["replaced", { formula: plain("1+1") }],
    ["removed", { formula: null }],
  ])("goes with all that refers to it when a formula is %s", async (_how, change) => {
    const patched = await after(change);
    expectOnlyChanged(
      before,
      patched,
      [sheet, "[Content_Types].xml", "xl/_rels/workbook.xml.rels"],
      [],
      ["xl/calcChain.xml"],
    );
    for (const part of ["[Content_Types].xml", "xl/_rels/workbook.xml.rels"]) {
      const gone = part.startsWith("[")
        ? /<Override PartName="\/xl\/calcChain[^>]*\/>/
        : /<Relationship Id="k"[^>]*\/>/;
      expect(partText(before, part)).toMatch(gone);
      expect(partText(patched, part)).toBe(partText(before, part).replace(gone, ""));
    }
  });
});
