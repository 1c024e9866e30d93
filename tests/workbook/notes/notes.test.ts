import { describe, expect, test } from "vitest";
import { parseXml } from "../../../src/workbook/xml/xml-tree.js";
import { openWorkbook, type Note } from "../../../src/workbook/workbook.js";
import { bookOf, buildBook, main, partText, sheetXml } from "../../support/build-workbook.js";
import { expectOnlyChanged, patchBook } from "../../support/patched.js";

const note = (row: number, column: number, text: string, sheet = "S"): Note => ({ sheet, row, column, text });
const withNotes = (bytes: Uint8Array, ...notes: Note[]) => patchBook(bytes, [], { notes });

const sheet1 = "xl/worksheets/sheet1.xml";
const rels1 = "xl/worksheets/_rels/sheet1.xml.rels";
const comments1 = "xl/comments1.xml";
const drawing1 = "xl/drawings/vmlDrawing1.vml";

describe("notes on a sheet that has none", async () => {
  const before = bookOf('<row r="1"><c r="A1"><v>1</v></c></row>');
  const after = await withNotes(before, note(0, 0, "og < 1.046\n=GYLE.ABV(A1)"), note(4, 2, "x"));

  test("add the comments part, the drawing part and all that refers to them, and nothing else", () => {
    expectOnlyChanged(before, after, [sheet1, "[Content_Types].xml"], [comments1, rels1, drawing1]);
    expect(partText(after, sheet1)).toBe(
      partText(before, sheet1).replace("</sheetData>", '</sheetData><legacyDrawing r:id="rId2"/>'),
    );
    expect(partText(after, rels1)).toContain(
      'Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/comments" Target="../comments1.xml"',
    );
    expect(partText(after, rels1)).toContain(
      'Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/vmlDrawing" Target="../drawings/vmlDrawing1.vml"',
    );
    const types = partText(after, "[Content_Types].xml");
    expect(types).toContain(
      '<Override PartName="/xl/comments1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"/>',
    );
    expect(types).toContain(
      '<Default Extension="vml" ContentType="application/vnd.openxmlformats-officedocument.vmlDrawing"/>',
    );
  });

  test("say their text, their author and their cell", () => {
    const text = (content: string) => `<text><t xml:space="preserve">${content}</t></text>`;
    expect(partText(after, comments1)).toContain(
      `<comments xmlns="${main}"><authors><author>Gylesheet</author></authors><commentList>` +
        `<comment ref="A1" authorId="0">${text("og &lt; 1.046\n=GYLE.ABV(A1)")}</comment>` +
        `<comment ref="C5" authorId="0">${text("x")}</comment></commentList></comments>`,
    );
  });

  test("have a hidden box each, with an id of its own", () => {
    const drawing = parseXml("drawing", partText(after, drawing1));
    const shapes = drawing.children.filter(({ local }) => local === "shape");
    const cells = shapes.map((s) =>
      s.children
        .find(({ local }) => local === "ClientData")
        ?.children.filter(({ local }) => local === "Row" || local === "Column")
        .map(({ text }) => text),
    );
    expect(cells).toEqual([
      ["0", "0"],
      ["4", "2"],
    ]);
    const ids = shapes.map((s) => s.attributes.find(({ name }) => name === "id")?.value);
    expect(new Set(ids).size).toBe(2);
    for (const s of shapes) {
      expect(s.attributes.find(({ name }) => name === "style")?.value).toContain("visibility:hidden");
      expect(s.attributes.find(({ name }) => name === "type")?.value).toBe("#_x0000_t202");
    }
    expect(drawing.children.filter(({ local }) => local === "shapetype")).toHaveLength(1);
  });
});

describe("the reference to the drawing stands where the schema wants it", () => {
  const place = async (before: string, behind: string) => {
    const xml = sheetXml("", "", `${before}${behind}`);
    const patched = partText(await withNotes(buildBook({ sheets: { S: xml } }), note(0, 0, "x")), sheet1);
    expect(patched).toBe(sheetXml("", "", `${before}<legacyDrawing r:id="rId2"/>${behind}`));
  };

  test.each([
    ["", ""],
    ["<mergeCells/><pageMargins/>", ""],
    ['<drawing r:id="d"/>', '<tableParts count="0"/>'],
    [
      "<headerFooter/><ignoredErrors/>",
      '<legacyDrawingHF r:id="h"/><picture r:id="p"/><oleObjects/><controls/>',
    ],
    ["<pageSetup/>", "<mc:AlternateContent xmlns:mc='m'><controls/></mc:AlternateContent><extLst/>"],
    ["<x14:foo xmlns:x14='y'/><drawing/>", "<extLst/>"],
  ])("behind %s and before %s", async (before, behind) => {
    await place(before, behind);
  });

  test("with the sheet's prefixes, or one of its own for r:id when the sheet has none", async () => {
    const prefixed = `<x:worksheet xmlns:x="${main}"><x:sheetData/><x:extLst/></x:worksheet>`;
    const patched = partText(
      await withNotes(buildBook({ sheets: { S: prefixed } }), note(0, 0, "x")),
      sheet1,
    );
    expect(patched).toBe(
      prefixed.replace(
        "<x:extLst/>",
        '<x:legacyDrawing xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" r:id="rId2"/><x:extLst/>',
      ),
    );
  });

  test("and beside a cell that comes at the same time", async () => {
    const empty = sheetXml("").replace("<sheetData></sheetData>", "<sheetData/>");
    const book = await openWorkbook(buildBook({ sheets: { S: empty } }));
    const patched = await book.patch([{ sheet: "S", row: 0, column: 0, value: 5 }], {
      notes: [note(0, 0, "x")],
    });
    expect(partText(patched, sheet1)).toBe(
      sheetXml('<row r="1"><c r="A1"><v>5</v></c></row>', "", '<legacyDrawing r:id="rId2"/>'),
    );
  });
});

test("notes on several sheets have parts and ids of their own, and cells at the edge a box inside the sheet", async () => {
  const bytes = buildBook({ sheets: { S: sheetXml(""), T: sheetXml("") } });
  const after = await withNotes(bytes, note(0, 0, "s"), note(1_048_575, 16_383, "line\n".repeat(50), "T"));
  expect(partText(after, "xl/worksheets/_rels/sheet2.xml.rels")).toContain("../comments2.xml");
  const [first, second] = [1, 2].map((n) => partText(after, `xl/drawings/vmlDrawing${n}.vml`));
  expect(first).toContain('id="_x0000_s1025"');
  expect(second).toContain('id="_x0000_s2049"');
  const anchor =
    /<x:Anchor>([^<]*)</
      .exec(second ?? "")?.[1]
      ?.split(", ")
      .map(Number) ?? [];
  expect(anchor).toHaveLength(8);
  expect(Math.max(...anchor.filter((_, i) => i === 0 || i === 4))).toBeLessThan(16_384);
  expect(Math.max(...anchor.filter((_, i) => i === 2 || i === 6))).toBeLessThan(1_048_576);
});

test("notes for a sheet or cell that is not there are refused", async () => {
  await expect(withNotes(bookOf(""), note(0, 0, "x", "T"))).rejects.toThrow('has no sheet "T"');
  await expect(withNotes(bookOf(""), note(0, 16_384, "x"))).rejects.toThrow(
    "has no cell in row 0, column 16384",
  );
});
