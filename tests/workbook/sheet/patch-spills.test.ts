import { describe, expect, test } from "vitest";
import type { Formula } from "../../../src/workbook/model.js";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { attributeOf, parseXml } from "../../../src/workbook/xml/xml-tree.js";
import { bookOf, buildBook, main, partTexts, sheetXml, type Book } from "../../support/build-workbook.js";
import { metadataXml, withMetadata } from "../../support/metadata.js";
import { expectOnlyChanged, patchedParts, patchedSheet, patchBook } from "../../support/patched.js";

const b1 = { row: 0, column: 1 };
const plain = (text: string): Formula => ({ text, kind: "plain" });

describe("formulas that spill", () => {
  const spill: Formula = {
    text: "SEQUENCE(3)",
    kind: "spill",
    area: { top: 0, left: 1, bottom: 2, right: 1 },
  };
  const spilled = '<c r="B1" cm="1"><f t="array" ref="B1:B3">SEQUENCE(3)</f><v>1</v></c>';
  const set = (more: Omit<Book, "sheets">, xml = sheetXml("")) =>
    patchedParts(xml, [{ ...b1, value: 1, formula: spill }], more);
  const sheetOf = (parts: ReadonlyMap<string, string>) => parts.get("xl/worksheets/sheet1.xml");
  const kindIn = async (parts: ReadonlyMap<string, string>) => {
    const book = buildBook({ sheets: {}, parts: Object.fromEntries(parts) });
    return (await openWorkbook(book)).model.sheets[0]?.cells[0]?.formula?.kind;
  };

  test("bring the metadata with them that a workbook does not have", async () => {
    const before = bookOf("");
    const after = await patchBook(before, [{ sheet: "S", ...b1, value: 1, formula: spill }]);
    const changed = ["xl/worksheets/sheet1.xml", "[Content_Types].xml", "xl/_rels/workbook.xml.rels"];
    expectOnlyChanged(before, after, changed, ["xl/metadata.xml"]);
    const parts = partTexts(after);
    expect(sheetOf(parts)).toBe(sheetXml(`<row r="1">${spilled}</row>`));
    expect(parts.get("[Content_Types].xml")).toContain(
      '<Override PartName="/xl/metadata.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml"/></Types>',
    );
    expect(parts.get("xl/_rels/workbook.xml.rels")).toContain(
      '<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/></Relationships>',
    );
    expect((await openWorkbook(after)).model.sheets[0]?.cells).toEqual([{ ...b1, value: 1, formula: spill }]);
  });

  test("use the metadata that is there", async () => {
    const more = withMetadata(
      metadataXml({
        typesBefore: ["XLRICHVALUE"],
        properties: ["0", "1"],
        cells: [
          [1, 0],
          [2, 0],
          [2, 1],
        ],
      }),
    );
    const parts = await set(more);
    expect(parts.get("xl/metadata.xml")).toBe(more.parts?.["xl/metadata.xml"]);
    expect(sheetOf(parts)).toContain('<c r="B1" cm="3">');
    expect(await kindIn(parts)).toBe("spill");
  });

  test.each([
    ["no cell records", metadataXml({ properties: ["1"], cells: [] }), 1],
    ["no dynamic record", metadataXml({ properties: ["0"], cells: [[1, 0]] }), 2],
    [
      "another type only",
      `<metadata xmlns="${main}"><metadataTypes count="1"><metadataType name="XLRICHVALUE"/></metadataTypes><futureMetadata name="XLRICHVALUE" count="1"><bk/></futureMetadata><valueMetadata count="1"><bk><rc t="1" v="0"/></bk></valueMetadata></metadata>`,
      1,
    ],
    ["nothing", `<metadata xmlns="${main}"/>`, 1],
    ["a prefix", `<x:metadata xmlns:x="${main}"><x:metadataTypes count="0"/></x:metadata>`, 1],
  ])("extend metadata that has %s", async (_what, xml, cm) => {
    const parts = await set(withMetadata(xml));
    expect(sheetOf(parts)).toContain(`<c r="B1" cm="${cm}">`);
    expect(await kindIn(parts)).toBe("spill");
    const lists = parseXml("metadata.xml", parts.get("xl/metadata.xml") ?? "").children;
    const order = ["metadataTypes", "futureMetadata", "cellMetadata", "valueMetadata"];
    const places = lists.map(({ local }) => order.indexOf(local));
    expect(places).toEqual([...places].sort((x, y) => x - y));
    for (const list of lists) expect(attributeOf(list, "count")).toBe(String(list.children.length));
  });

  test("keep their metadata and get a new ref when they fill another area", async () => {
    const more = withMetadata(
      metadataXml({
        properties: ["1"],
        cells: [
          [1, 0],
          [1, 0],
        ],
      }),
    );
    const xml = sheetXml(`<row r="1">${spilled.replace('cm="1"', 'cm="2"').replace("B1:B3", "B1:B9")}</row>`);
    expect(await patchedSheet(xml, [{ ...b1, value: 1, formula: spill }], more)).toBe(
      xml.replace("B1:B9", "B1:B3"),
    );
    const other = await patchedSheet(
      xml,
      [{ ...b1, value: 1, formula: { ...spill, text: "SEQUENCE(4)" } }],
      more,
    );
    expect(other).toBe(xml.replace("B1:B9", "B1:B3").replace("SEQUENCE(3)", "SEQUENCE(4)"));
  });

  test("lose their metadata when they are replaced or removed", async () => {
    const more = withMetadata(metadataXml({ properties: ["1"], cells: [[1, 0]] }));
    const xml = sheetXml(`<row r="1">${spilled}</row>`);
    expect(await patchedSheet(xml, [{ ...b1, value: 1, formula: null }], more)).toBe(
      sheetXml('<row r="1"><c r="B1"><v>1</v></c></row>'),
    );
    expect(await patchedSheet(xml, [{ ...b1, value: 1, formula: plain("1") }], more)).toBe(
      sheetXml('<row r="1"><c r="B1"><f>1</f><v>1</v></c></row>'),
    );
  });

  test("become fixed arrays, losing it, and fixed arrays become them", async () => {
    const more = withMetadata(metadataXml({ properties: ["1"], cells: [[1, 0]] }));
    const xml = sheetXml(`<row r="1">${spilled}</row>`);
    const fixed = xml.replace(' cm="1"', "");
    expect(await patchedSheet(xml, [{ ...b1, value: 1, formula: { ...spill, kind: "array" } }], more)).toBe(
      fixed,
    );
    expect(await patchedSheet(fixed, [{ ...b1, value: 1, formula: spill }], more)).toBe(xml);
  });
});
