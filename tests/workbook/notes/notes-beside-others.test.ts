import { describe, expect, test } from "vitest";
import type { Note } from "../../../src/workbook/workbook.js";
import { parseXml } from "../../../src/workbook/xml/xml-tree.js";
import {
  bookOf,
  bookParts,
  buildBook,
  main,
  partText,
  relationshipNamespace,
  relationshipsXml,
  sheetXml,
  zipParts,
  type Book,
} from "../../support/build-workbook.js";
import { expectOnlyChanged, patchBook } from "../../support/patched.js";

const note = (row: number, column: number, text: string, sheet = "S"): Note => ({ sheet, row, column, text });
const withNotes = (bytes: Uint8Array, ...notes: Note[]) => patchBook(bytes, [], { notes });

const sheet1 = "xl/worksheets/sheet1.xml";
const rels1 = "xl/worksheets/_rels/sheet1.xml.rels";
const comments1 = "xl/comments1.xml";
const drawing1 = "xl/drawings/vmlDrawing1.vml";

/** A sheet that has notes: comments and drawing as given. */
function noted(
  comments: string,
  shapes: string,
  legacy = '<legacyDrawing r:id="v"/>',
  more: Omit<Book, "sheets"> = {},
): Uint8Array {
  return buildBook({
    ...more,
    sheets: { S: sheetXml("", "", legacy) },
    overrides: {
      "xl/comments1.xml": "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml",
      "xl/drawings/vmlDrawing1.vml": "application/vnd.openxmlformats-officedocument.vmlDrawing",
    },
    parts: {
      [rels1]: relationshipsXml(
        { id: "c", kind: "comments", target: "../comments1.xml" },
        { id: "v", kind: "vmlDrawing", target: "../drawings/vmlDrawing1.vml" },
      ),
      [comments1]: comments,
      [drawing1]: shapes,
    },
  });
}

const namespaces =
  'xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel"';
const shape = (id: string, row: number, column: number) =>
  `<v:shape id="${id}"><x:ClientData ObjectType="Note"><x:Row>${row}</x:Row><x:Column>${column}</x:Column></x:ClientData></v:shape>`;
const comments = (list: string, authors = "<author>Cellar</author>") =>
  `<comments xmlns="${main}"><authors>${authors}</authors><commentList>${list}</commentList></comments>`;
const cellarNote = (content: string) => comments(`<comment ref="B2" authorId="0">${content}</comment>`);

describe("notes on a sheet that has some", () => {
  const drawing = `<xml ${namespaces}><v:shapetype id="_x0000_t202"/>${shape("_x0000_s1025", 1, 1)}<v:shape><v:textbox><br>not XML</v:textbox></v:shape></xml>`;
  const before = noted(cellarNote("<text><t>old</t></text>"), drawing);

  test("come behind them, which stay as they are", async () => {
    const after = await withNotes(before, note(0, 0, "new"));
    expectOnlyChanged(before, after, [comments1, drawing1]);
    const list = cellarNote("<text><t>old</t></text>");
    expect(partText(after, comments1)).toBe(
      list
        .replace("</authors>", "<author>Gylesheet</author></authors>")
        .replace(
          "</commentList>",
          '<comment ref="A1" authorId="1"><text><t xml:space="preserve">new</t></text></comment></commentList>',
        ),
    );
    const vml = partText(after, drawing1);
    expect(vml.startsWith(drawing.slice(0, -"</xml>".length))).toBe(true);
    expect(vml).toMatch(
      /<v:shape id="_x0000_s1026" [^]*<x:Row>0<\/x:Row><x:Column>0<\/x:Column><\/x:ClientData><\/v:shape><\/xml>$/,
    );
    expect(vml.match(/<v:shapetype/g)).toHaveLength(1);
  });

  test.each([
    ["<text><t>old</t></text>", '<text><t xml:space="preserve">old\n\nnew</t></text>'],
    ["<text><t xml:space='preserve'>old</t></text>", "<text><t xml:space='preserve'>old\n\nnew</t></text>"],
    [
      "<text><r><rPr><b/></rPr><t>o</t></r><r><t>ld</t></r></text>",
      '<text><r><rPr><b/></rPr><t>o</t></r><r><t xml:space="preserve">ld\n\nnew</t></r></text>',
    ],
    [
      "<text><t>old</t><rPh sb='0' eb='1'><t>x</t></rPh></text>",
      "<text><t xml:space=\"preserve\">old\n\nnew</t><rPh sb='0' eb='1'><t>x</t></rPh></text>",
    ],
    ["<text><t/></text>", '<text><t xml:space="preserve">new</t></text>'],
    ["<text/>", '<text><t xml:space="preserve">new</t></text>'],
    ["", '<text><t xml:space="preserve">new</t></text>'],
  ])("%s on the same cell gets the text below", async (stored, expected) => {
    const bytes = noted(cellarNote(stored), drawing);
    const after = await withNotes(bytes, note(1, 1, "new"));
    expectOnlyChanged(bytes, after, [comments1]);
    expect(partText(after, comments1)).toBe(cellarNote(expected));
  });

  test("several on one cell become one", async () => {
    const after = await withNotes(before, note(0, 0, "a"), note(1, 1, "b"), note(0, 0, "c"), note(1, 1, "d"));
    const list = partText(after, comments1);
    expect(list).toContain('<t xml:space="preserve">a\n\nc</t>');
    expect(list).toContain('<t xml:space="preserve">old\n\nb\n\nd</t>');
    expect(list.match(/<comment /g)).toHaveLength(2);
    expect(partText(after, drawing1).match(/<x:ClientData/g)).toHaveLength(2);
  });

  test("use the author that is there, and make lists that are not", async () => {
    const known = noted(comments("", "<author>Cellar</author><author>Gylesheet</author>"), drawing);
    expect(partText(await withNotes(known, note(0, 0, "x")), comments1)).toBe(
      comments(
        '<comment ref="A1" authorId="1"><text><t xml:space="preserve">x</t></text></comment>',
        "<author>Cellar</author><author>Gylesheet</author>",
      ),
    );
    const bare = noted(`<x:comments xmlns:x="${main}"/>`, drawing);
    expect(partText(await withNotes(bare, note(0, 0, "x")), comments1)).toBe(
      `<x:comments xmlns:x="${main}"><x:authors><x:author>Gylesheet</x:author></x:authors><x:commentList>` +
        '<x:comment ref="A1" authorId="0"><x:text><x:t xml:space="preserve">x</x:t></x:text></x:comment></x:commentList></x:comments>',
    );
  });

  test("get a box also when the stored note has none", async () => {
    const bytes = noted(
      cellarNote("<text><t>old</t></text>"),
      `<xml ${namespaces}/>`.replace("/>", "></xml>"),
    );
    const vml = partText(await withNotes(bytes, note(1, 1, "new")), drawing1);
    expect(vml).toContain('<v:shapetype id="_x0000_t202"');
    expect(vml).toContain("<x:Row>1</x:Row><x:Column>1</x:Column>");
  });

  test("declare the prefixes that the drawing does not", async () => {
    const bytes = noted(comments(""), '<xml xmlns:v="urn:schemas-microsoft-com:vml"></xml>');
    const vml = partText(await withNotes(bytes, note(1, 1, "new")), drawing1);
    expect(() => parseXml("x", vml)).not.toThrow();
    expect(vml).toMatch(/<v:shape xmlns:o="[^"]*" xmlns:x="[^"]*" id=/);
  });

  test("get a drawing of their own when the stored one shows headers, or leads nowhere", async () => {
    const header = noted(comments(""), drawing, '<legacyDrawingHF r:id="v"/>');
    const after = await withNotes(header, note(0, 0, "x"));
    expectOnlyChanged(
      header,
      after,
      [sheet1, rels1, comments1, "[Content_Types].xml"],
      ["xl/drawings/vmlDrawing2.vml"],
    );
    expect(partText(after, sheet1)).toBe(
      sheetXml("", "", '<legacyDrawing r:id="rId1"/><legacyDrawingHF r:id="v"/>'),
    );
    const nowhere = noted(comments(""), drawing, '<legacyDrawing r:id="gone"/>');
    expect(partText(await withNotes(nowhere, note(0, 0, "x")), sheet1)).toBe(
      sheetXml("", "", '<legacyDrawing r:id="rId1"/>'),
    );
  });

  test("replace a content type that an earlier part of the same name left behind", async () => {
    const bytes = bookOf("", { overrides: { "xl/comments1.xml": "application/x-gone" } });
    const types = partText(await withNotes(bytes, note(0, 0, "x")), "[Content_Types].xml");
    expect(types.match(/PartName="\/xl\/comments1.xml"/g)).toHaveLength(1);
    expect(types).not.toContain("application/x-gone");
  });

  test("are refused when the stored parts are damaged", async () => {
    await expect(withNotes(noted("<comments>", drawing), note(0, 0, "x"))).rejects.toThrow(
      `${comments1} is not well-formed XML`,
    );
    for (const vml of ["", "<xml", "<xml/>", "<html></html>"]) {
      await expect(withNotes(noted(comments(""), vml), note(0, 0, "x"))).rejects.toThrow(
        `${drawing1} is no VML drawing`,
      );
    }
    await expect(withNotes(noted(comments(""), `<!DOCTYPE a>${drawing}`), note(0, 0, "x"))).rejects.toThrow(
      "declares a DTD",
    );
  });
});

describe("what Excel wants beyond the schema", () => {
  test("a drawing that a sheet names inside alternatives is its drawing, and there is no second", async () => {
    const legacy =
      '<mc:AlternateContent xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006">' +
      '<mc:Choice Requires="x14"><legacyDrawing r:id="v"/></mc:Choice></mc:AlternateContent>';
    const drawing = `<xml ${namespaces}></xml>`;
    const before = noted(comments(""), drawing, legacy);
    const after = await withNotes(before, note(0, 0, "x"));
    expectOnlyChanged(before, after, [comments1, drawing1]);
    expect(partText(after, drawing1)).toContain("<x:Row>0</x:Row>");
  });

  test("in a strict workbook the drawing has the transitional type of relationship, and the rest the strict one", async () => {
    const strict = (xml: string) =>
      xml
        .replaceAll(main, "http://purl.oclc.org/ooxml/spreadsheetml/main")
        .replaceAll(relationshipNamespace, "http://purl.oclc.org/ooxml/officeDocument/relationships");
    const parts = bookParts({ sheets: { S: sheetXml("") } });
    const bytes = zipParts(
      Object.fromEntries(Object.entries(parts).map(([name, xml]) => [name, strict(String(xml))])),
    );
    const rels = partText(await withNotes(bytes, note(0, 0, "x")), rels1);
    expect(rels).toContain(`Type="${relationshipNamespace}/vmlDrawing"`);
    expect(rels).toContain('Type="http://purl.oclc.org/ooxml/officeDocument/relationships/comments"');
  });

  test("the placeholder of a thread stays, and the note stands beside it and says for which cell", async () => {
    const placeholder =
      '<comment ref="B2" authorId="0"><text><t>[Threaded comment] Your version of Excel …</t></text></comment>';
    const before = noted(
      comments(placeholder, "<author>tc={5A1B0C3D-0000-4000-8000-000000000001}</author>"),
      `<xml ${namespaces}>${shape("_x0000_s1025", 1, 1)}</xml>`,
    );
    const after = partText(
      await withNotes(before, note(1, 1, "=GYLE.ABV(A1,A2)"), note(1, 2, "own")),
      comments1,
    );
    expect(after).toContain(placeholder);
    expect(after).toMatch(/<comment ref="C2" authorId="1"><text><t [^>]*>B2: =GYLE\.ABV\(A1,A2\)\n\nown</);
  });

  test("ids come in blocks of 1,024, which no two drawings share, and each drawing lists its own", async () => {
    const bytes = buildBook({ sheets: { S: sheetXml(""), T: sheetXml("") } });
    const many = (sheet: string, count: number) =>
      Array.from({ length: count }, (_, row) => note(row, 0, "x", sheet));
    const first = await withNotes(bytes, ...many("S", 2100), ...many("T", 1100));
    const after = await withNotes(first, note(0, 1, "later"), ...many("T", 2200));
    const drawings = [1, 2].map((n) => partText(after, `xl/drawings/vmlDrawing${n}.vml`));
    const all: string[] = [];
    const blocks = drawings.map((vml, i) => {
      const ids = [...vml.matchAll(/<v:shape id="_x0000_s(\d+)"/g)].map(([, id = ""]) => id);
      expect(ids).toHaveLength([2101, 2200][i] ?? 0);
      all.push(...ids);
      const listed = /<o:idmap v:ext="edit" data="([\d,]+)"/.exec(vml)?.[1]?.split(",") ?? [];
      expect(new Set(ids.map((id) => String(Math.floor(Number(id) / 1024))))).toEqual(new Set(listed));
      return listed;
    });
    expect(new Set(all).size).toBe(4301);
    expect(new Set(blocks.flat()).size).toBe(blocks.flat().length);
    expect(blocks.map((list) => list.length)).toEqual([3, 3]);
  });

  test("a drawing without a list of blocks gets one as soon as it needs more than its sheet's", async () => {
    const before = noted(comments(""), `<xml ${namespaces}></xml>`);
    const notes = Array.from({ length: 1024 }, (_, row) => note(row, 0, "x"));
    const vml = partText(await withNotes(before, ...notes), drawing1);
    expect(vml).toMatch(
      /^<xml [^>]*><o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="1,2"\/><\/o:shapelayout>/,
    );
    expect(vml.match(/<v:shape id/g)).toHaveLength(1024);
  });
});
