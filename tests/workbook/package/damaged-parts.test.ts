import { describe, expect, test } from "vitest";
import { attributeLimit, depthLimit } from "../../../src/workbook/limits.js";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { main, relationshipsXml, sheetXml, zipParts } from "../../support/build-workbook.js";
import { goodParts, oneCell, refusal } from "../../support/refusal.js";

const open = (bytes: Uint8Array) => openWorkbook(bytes);

describe("a workbook with a broken part is refused with the part's name", () => {
  const sheet = "xl/worksheets/sheet1.xml";
  const withSheet = (xml: string | Uint8Array) => zipParts(goodParts({ [sheet]: xml }));

  test.each(["xl/workbook.xml", sheet, "[Content_Types].xml"])("when %s is missing", async (name) => {
    const rest = Object.fromEntries(Object.entries(goodParts()).filter(([part]) => part !== name));
    expect(await refusal(zipParts(rest))).toMatch(
      name === sheet
        ? /^is damaged: the sheet "S" is missing$/
        : new RegExp(`^is damaged: ${name.replace("[", "\\[")} is missing$`),
    );
  });

  test("when a sheet has no relationship", async () => {
    expect(await refusal(zipParts(goodParts({ "xl/_rels/workbook.xml.rels": relationshipsXml() })))).toBe(
      'is damaged: the sheet "S" is missing',
    );
  });

  test("when it is not UTF-8", async () => {
    const latin1 = Uint8Array.from(
      sheetXml('<row r="1"><c r="A1" t="str"><v>K\u00f6lsch</v></c></row>'),
      (char) => char.charCodeAt(0),
    );
    expect(await refusal(withSheet(latin1))).toBe(`is damaged: ${sheet} is not UTF-8 text`);
    const declared = `<?xml version="1.0" encoding="ISO-8859-1"?>${sheetXml(oneCell)}`;
    expect(await refusal(withSheet(declared))).toBe(`is damaged: ${sheet} is not UTF-8 text`);
  });

  test.each(["utf-8", "UTF-8", "US-ASCII"])("but not when it declares itself %s", async (encoding) => {
    const declared = `<?xml version='1.0' encoding='${encoding}' standalone='yes' ?>\n${sheetXml(oneCell)}`;
    await expect(open(withSheet(declared))).resolves.toBeDefined();
  });

  test("when it declares a DTD, wherever it is", async () => {
    const doctype = '<!DOCTYPE x [<!ENTITY a "beer">]>';
    for (const name of Object.keys(goodParts())) {
      const declared = `${doctype}${String(goodParts()[name])}`;
      expect(await refusal(zipParts(goodParts({ [name]: declared })))).toBe(
        `declares a DTD in ${name}; refused`,
      );
    }
    expect(await refusal(withSheet(sheetXml(`${oneCell}<!ENTITY a "b">`)))).toBe(
      `declares a DTD in ${sheet}; refused`,
    );
  });

  test("when elements nest too deep", async () => {
    const nested = (depth: number) =>
      sheetXml(oneCell, "", "<x>".repeat(depth - 1) + "</x>".repeat(depth - 1));
    await expect(open(withSheet(nested(depthLimit)))).resolves.toBeDefined();
    expect(await refusal(withSheet(nested(depthLimit + 1)))).toBe(
      `nests elements more than 64 deep in ${sheet}; refused`,
    );
  });

  test("when a tag has very many attributes", async () => {
    const tag = (count: number) => `<x ${Array.from({ length: count }, (_, i) => `a${i}=""`).join(" ")}/>`;
    await expect(open(withSheet(sheetXml(oneCell, "", tag(attributeLimit))))).resolves.toBeDefined();
    expect(await refusal(withSheet(sheetXml(oneCell, "", tag(attributeLimit + 1))))).toBe(
      `has a tag of more than 500 attributes in ${sheet}; refused`,
    );
  });

  test("when it is no worksheet, or one without sheetData", async () => {
    expect(await refusal(withSheet("<worksheet/>"))).toBe(`is damaged: ${sheet} is no worksheet`);
    expect(await refusal(withSheet(`<chartsheet xmlns="${main}"/>`))).toBe(
      `is damaged: ${sheet} is no worksheet`,
    );
    expect(await refusal(withSheet(`<worksheet xmlns="${main}"/>`))).toBe(
      `is damaged: ${sheet} has no sheetData`,
    );
  });

  test.each([
    ["cells out of order at A1", '<row r="1"><c r="B1"/><c r="A1"/></row>'],
    ["cells out of order at B1", '<row r="1"><c r="B1"/><c r="B1"/></row>'],
    ["cells out of order at A2", '<row r="1"><c r="A2"/></row>'],
    ["rows out of order at row 2", '<row r="3"/><row r="2"/>'],
    ["rows out of order at row 3", '<row r="3"/><row r="3"/>'],
    ['a row "0"', '<row r="0"/>'],
    ['a row "1048577"', '<row r="1048577"/>'],
    ['a row "one"', '<row r="one"/>'],
    ['a cell "XFE1"', '<row r="1"><c r="XFE1"/></row>'],
    ['a cell "beer"', '<row r="1"><c r="beer"/></row>'],
    ["a cell beyond column 16384", '<row r="1"><c r="XFD1"/><c/></row>'],
  ])("when it has %s", async (what, rows) => {
    expect(await refusal(withSheet(sheetXml(rows)))).toBe(`is damaged: ${sheet} has ${what}`);
  });

  test.each([
    ["n", "12 kg"],
    ["n", "0x10"],
    ["n", "Infinity"],
    ["n", "1e999"],
    ["s", "0"],
    ["b", "2"],
    ["d", "yesterday"],
    ["z", "1"],
  ])("when a cell of type %s holds %s", async (type, text) => {
    expect(
      await refusal(withSheet(sheetXml(`<row r="1"><c r="B1" t="${type}"><v>${text}</v></c></row>`))),
    ).toBe(`is damaged: ${sheet} holds "${text}" as type "${type}" in B1`);
  });

  test("when a cell shares a formula that is nowhere", async () => {
    expect(await refusal(withSheet(sheetXml('<row r="1"><c r="B1"><f t="shared" si="3"/></c></row>')))).toBe(
      `is damaged: ${sheet} shares a formula that it does not hold`,
    );
  });
});
