import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { WorkbookError } from "../../../src/workbook/error.js";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import {
  bookOf,
  partText,
  partTexts,
  relationshipsXml,
  type Book,
  type Relation,
} from "../../support/build-workbook.js";
import { utf16 } from "../../support/other-writers.js";
import { expectOnlyChanged, patchBook } from "../../support/patched.js";

const ours = "urn:example:gylesheet:profile";
const profile = (name: string) => `<profile xmlns="${ours}"><brewery>${name}</brewery></profile>`;

function withItems(items: Readonly<Record<string, string | Uint8Array>>): Omit<Book, "sheets"> {
  return {
    relations: Object.keys(items).map((path, i) => ({
      id: `c${i}`,
      kind: "customXml",
      target: `../${path}`,
    })),
    parts: items,
  };
}

const read = async (items: Readonly<Record<string, string | Uint8Array>>) =>
  (await openWorkbook(bookOf("", withItems(items)))).customXml(ours);

describe("custom XML is found by the namespace of its root", () => {
  test("with or without properties, declaration, prefix and byte order mark", async () => {
    const declared = `\uFEFF<?xml version="1.0" encoding="UTF-8"?><p:profile xmlns:p="${ours}"/>`;
    expect(
      await read({
        "customXml/item1.xml": '<other xmlns="urn:example:other"/>',
        "customXml/item2.xml": profile("A (invented)"),
        "elsewhere/x.xml": declared,
        "customXml/item4.xml": `<other xmlns:p="${ours}"><p:profile/></other>`,
      }),
    ).toEqual([
      { path: "customXml/item2.xml", xml: profile("A (invented)") },
      { path: "elsewhere/x.xml", xml: declared.slice(1) },
    ]);
  });

  test("not where the workbook refers to a part that is not there", async () => {
    const relations = [{ id: "c", kind: "customXml", target: "../customXml/item1.xml" }];
    expect((await openWorkbook(bookOf("", { relations }))).customXml(ours)).toEqual([]);
  });

  test("passing over what other add-ins keep there, even in UTF-16 or damaged", async () => {
    const items = {
      "a.xml": utf16("<x/>", "le"),
      "b.xml": "<x>",
      "c.xml": "<!DOCTYPE x><x/>",
      "d.xml": profile("D"),
    };
    expect((await read(items)).map(({ path }) => path)).toEqual(["d.xml"]);
  });

  test("but damaged XML of ours is refused", async () => {
    await expect(read({ "a.xml": profile("A").slice(0, -3) })).rejects.toThrow(
      "is damaged: a.xml is not well-formed XML",
    );
    await expect(read({ "a.xml": `<!DOCTYPE x>${profile("A")}` })).rejects.toThrow(
      "declares a DTD in a.xml; refused",
    );
  });
});

/** Where each of some documents hangs, and in which encoding it is. */
type Hung = readonly (readonly [
  by: "workbook" | "package" | "both" | "nothing",
  encoding: "utf-8" | "utf-16",
])[];

function hung(documents: Hung): Uint8Array {
  const path = (i: number) => `customXml/item${i + 1}.xml`;
  const relations = (...by: readonly string[]): Relation[] =>
    documents.flatMap(([held], i) =>
      by.includes(held) ? [{ id: `c${i}`, kind: "customXml", target: `../${path(i)}` }] : [],
    );
  const items = documents.map(([, encoding], i): [string, string | Uint8Array] => [
    path(i),
    encoding === "utf-8"
      ? profile(`${i}`)
      : utf16(`<?xml version="1.0" encoding="UTF-16"?>${profile(`${i}`)}`, "le"),
  ]);
  const main = { id: "r1", kind: "officeDocument", target: "xl/workbook.xml" };
  return bookOf("", {
    relations: relations("workbook", "both"),
    parts: {
      "_rels/.rels": relationshipsXml(main, ...relations("package", "both")),
      ...Object.fromEntries(items),
    },
  });
}

const anyHung: fc.Arbitrary<Hung> = fc.array(
  fc.tuple(
    fc.constantFrom("workbook" as const, "package" as const, "both" as const, "nothing" as const),
    fc.constantFrom("utf-8" as const, "utf-16" as const),
  ),
  { minLength: 1, maxLength: 4 },
);

describe("custom XML of ours is found wherever a program has hung it", () => {
  const pathsOf = async (bytes: Uint8Array) =>
    (await openWorkbook(bytes))
      .customXml(ours)
      .map(({ path }) => path)
      .sort();
  /** What hangs on nothing is only taken where nothing else is there. */
  const expected = (documents: Hung) => {
    const all = documents.map(([by], i) => ({ by, path: `customXml/item${i + 1}.xml` }));
    const held = all.filter(({ by }) => by !== "nothing");
    return (held.length > 0 ? held : all).map(({ path }) => path);
  };

  test("on the workbook, on the package as LibreOffice saves it, on both, or on nothing", async () => {
    await fc.assert(
      fc.asyncProperty(anyHung, async (documents) => {
        expect(await pathsOf(hung(documents))).toEqual(expected(documents));
      }),
      { numRuns: 40 },
    );
  });

  test("is replaced in its place, and nothing else is touched", async () => {
    await fc.assert(
      fc.asyncProperty(anyHung, async (documents) => {
        const before = hung(documents);
        for (const path of expected(documents)) {
          const after = await patchBook(before, [], { customXml: [{ path, xml: profile("new") }] });
          expectOnlyChanged(before, after, [path]);
          expect(partText(after, path)).toBe(profile("new"));
          expect(await pathsOf(after)).toEqual(expected(documents));
        }
      }),
      { numRuns: 15 },
    );
  });

  test("and is taken out without a trace", async () => {
    await fc.assert(
      fc.asyncProperty(anyHung, async (documents) => {
        const path = expected(documents)[0] ?? "";
        const after = await patchBook(hung(documents), [], { droppedCustomXml: [path] });
        const texts = [...partTexts(after)];
        expect(texts.map(([name]) => name)).not.toContain(path);
        for (const [name, text] of texts)
          if (/rels$|Types/.test(name)) expect([name, text.includes(path)]).toEqual([name, false]);
      }),
      { numRuns: 15 },
    );
  });

  test("by its type alone, outside of the usual folder", async () => {
    expect(await pathsOf(bookOf("", { parts: { "docs/ours.xml": profile("A") } }))).toEqual([
      "docs/ours.xml",
    ]);
  });

  test("but is not written by us in another encoding than it says", async () => {
    const book = await openWorkbook(bookOf(""));
    const xml = `<?xml version="1.0" encoding="UTF-16"?>${profile("A")}`;
    await expect(book.patch([], { customXml: [{ xml }] })).rejects.toThrow("takes added XML in UTF-8 only");
  });
});

describe("custom XML is written", () => {
  const guid = /ds:itemID="\{[0-9A-F]{8}-[0-9A-F]{4}-4[0-9A-F]{3}-[89AB][0-9A-F]{3}-[0-9A-F]{12}\}"/;

  test("as a new part with properties, types and relationships", async () => {
    const before = bookOf("");
    const after = await patchBook(before, [], {
      customXml: [{ xml: profile("B & C".replace("&", "&amp;")) }],
    });
    const added = ["customXml/item1.xml", "customXml/itemProps1.xml", "customXml/_rels/item1.xml.rels"];
    expectOnlyChanged(before, after, ["[Content_Types].xml", "xl/_rels/workbook.xml.rels"], added);
    expect(partText(after, "customXml/item1.xml")).toBe(profile("B &amp; C"));
    expect(partText(after, "customXml/itemProps1.xml")).toMatch(guid);
    expect(partText(after, "customXml/itemProps1.xml")).toContain(`<ds:schemaRef ds:uri="${ours}"/>`);
    expect(partText(after, "customXml/_rels/item1.xml.rels")).toContain(
      'Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/customXmlProps" Target="itemProps1.xml"',
    );
    expect(partText(after, "xl/_rels/workbook.xml.rels")).toContain(
      'relationships/customXml" Target="../customXml/item1.xml"',
    );
    expect(partText(after, "[Content_Types].xml")).toContain(
      'PartName="/customXml/itemProps1.xml" ContentType="application/vnd.openxmlformats-officedocument.customXmlProperties+xml"',
    );
    expect(partText(after, "[Content_Types].xml")).not.toContain('PartName="/customXml/item1.xml"');
    expect((await openWorkbook(after)).customXml(ours)).toEqual([
      { path: "customXml/item1.xml", xml: profile("B &amp; C") },
    ]);
  });

  test("beside what is there, each with an id of its own", async () => {
    const before = bookOf(
      "",
      withItems({ "customXml/item1.xml": "<x/>", "customXml/itemProps1.xml": "<y/>" }),
    );
    const after = await patchBook(before, [], {
      customXml: [{ xml: profile("A") }, { xml: profile("B") }],
    });
    const found = (await openWorkbook(after)).customXml(ours);
    expect(found.map(({ path }) => path)).toEqual(["customXml/item2.xml", "customXml/item3.xml"]);
    const ids = [2, 3].map((n) => guid.exec(partText(after, `customXml/itemProps${n}.xml`))?.[0]);
    expect(new Set(ids).size).toBe(2);
    const rels = partText(after, "xl/_rels/workbook.xml.rels");
    const relationIds = Array.from(rels.matchAll(/ Id="([^"]*)"/g), ([, id]) => id);
    expect(new Set(relationIds).size).toBe(relationIds.length);
  });

  test("in place of a stored one", async () => {
    const before = bookOf(
      "",
      withItems({ "customXml/item1.xml": profile("A"), "customXml/item2.xml": profile("B") }),
    );
    const after = await patchBook(before, [], {
      customXml: [{ path: "customXml/item2.xml", xml: profile("C") }],
    });
    expectOnlyChanged(before, after, ["customXml/item2.xml"]);
    expect(partText(after, "customXml/item2.xml")).toBe(profile("C"));
  });

  test("but not over another part, nor when it is damaged", async () => {
    const book = await openWorkbook(bookOf("", { parts: { "x/_rels/y.rels": relationshipsXml() } }));
    await expect(
      book.patch([], { customXml: [{ path: "xl/workbook.xml", xml: profile("A") }] }),
    ).rejects.toThrow(WorkbookError);
    await expect(book.patch([], { customXml: [{ xml: "<a>" }] })).rejects.toThrow(
      "the added XML is not well-formed",
    );
  });

  test("and parts of a file whose list of types knows no xml get their own type", async () => {
    const bytes = bookOf("");
    const types = partText(bytes, "[Content_Types].xml").replace(/<Default Extension="xml"[^>]*\/>/, "");
    const bare = bookOf("", {
      parts: { "[Content_Types].xml": types.replace(/<Default Extension="rels"[^>]*\/>/, "") },
    });
    const after = await patchBook(bare, [], { customXml: [{ xml: profile("A") }] });
    const declared = partText(after, "[Content_Types].xml");
    expect(declared).toContain('<Override PartName="/customXml/item1.xml" ContentType="application/xml"/>');
    expect(declared).toContain(
      '<Override PartName="/customXml/_rels/item1.xml.rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>',
    );
    expect(partTexts(after).size).toBe(partTexts(bare).size + 3);
  });
});
