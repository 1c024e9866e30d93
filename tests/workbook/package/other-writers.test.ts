import { readFileSync } from "node:fs";
import { strFromU8, unzipSync, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { partNamespace } from "../../../src/instruments/part.js";
import type { CellChange } from "../../../src/workbook/model.js";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { bookOf, bookParts, sheetXml, zipParts } from "../../support/build-workbook.js";
import { inUtf16, utf16, withBackslashes } from "../../support/other-writers.js";
import { expectOnlyChanged, patchBook } from "../../support/patched.js";
import { refusal } from "../../support/refusal.js";
import { spoilEntry } from "../../support/spoil-zip.js";

// What programs do that packages allow, or that spreadsheet programs read all the same. Whatever the form, the same is read,
// and a patch changes the same characters in the same place.

const file = (path: string): Uint8Array =>
  new Uint8Array(readFileSync(new URL(`../../../${path}`, import.meta.url)));
const season = file("examples/season.xlsx");

const changes: CellChange[] = [
  { sheet: "Season", row: 4, column: 9, value: 1.0501 },
  { sheet: "Season", row: 90, column: 3, value: "Kölsch \u{1F37A} & <mehr>" },
  { sheet: "Season", row: 91, column: 3, value: null, formula: { text: 'A1&"ß"', kind: "plain" } },
];

const textOf = (bytes: Uint8Array): string =>
  new TextDecoder(
    bytes[0] === 0xff || bytes[1] === 0
      ? "utf-16le"
      : bytes[0] === 0xfe || bytes[0] === 0
        ? "utf-16be"
        : "utf-8",
  ).decode(bytes);

/** Without the line that says how the part is written. */
const content = (bytes: Uint8Array): string => textOf(bytes).replace(/^<\?xml[^>]*\?>\s*/, "");

const forms: readonly (readonly [string, (bytes: Uint8Array) => Uint8Array])[] = [
  ["UTF-16 with the small end first", (bytes) => inUtf16(bytes, "le")],
  ["UTF-16 with the big end first", (bytes) => inUtf16(bytes, "be")],
  ["UTF-16 without its mark, small end first", (bytes) => inUtf16(bytes, "le", { mark: false })],
  ["UTF-16 without its mark, big end first", (bytes) => inUtf16(bytes, "be", { mark: false })],
  ["one sheet in UTF-16", (bytes) => inUtf16(bytes, "le", { only: /worksheets\/sheet1\.xml$/ })],
  ["backslashes between folders", withBackslashes],
  ["backslashes and UTF-16", (bytes) => withBackslashes(inUtf16(bytes, "be"))],
];

describe.each(forms)("a workbook in %s", (_, rewrite) => {
  const given = rewrite(season);

  test("reads as it did", async () => {
    const [book, plain] = [await openWorkbook(given), await openWorkbook(season)];
    expect(book.model).toEqual(plain.model);
    const instruments = (xml: string): string => xml.replace(/^<\?xml[^>]*\?>\s*/, "");
    expect(book.customXml(partNamespace).map(({ xml }) => instruments(xml))).toEqual(
      plain.customXml(partNamespace).map(({ xml }) => instruments(xml)),
    );
  });

  test("is patched in its own form, and what is not touched keeps its bytes", async () => {
    const extras = { notes: [{ sheet: "Season", row: 4, column: 9, text: "=Öl" }] };
    const plain = unzipSync(await patchBook(season, changes, extras));
    const after = unzipSync(await patchBook(given, changes, extras));
    const before = unzipSync(given);
    const inForm = (name: string): string =>
      Object.keys(before).find((each) => each.replaceAll("\\", "/") === name) ?? name;
    expect(Object.keys(after)).toEqual(Object.keys(plain).map(inForm));
    for (const [name, data] of Object.entries(plain)) {
      const now = after[inForm(name)] ?? new Uint8Array();
      if (/\.(xml|rels|vml)$/.test(name)) expect([name, content(now)]).toEqual([name, content(data)]);
      const was = before[inForm(name)];
      // The form is kept: as many bytes to a character, and the same mark.
      if (was && now.length > 0) expect([name, ...now.slice(0, 4)]).toEqual([name, ...was.slice(0, 4)]);
    }
    const untouched = Object.keys(before).filter(
      (name) => content(before[name] ?? new Uint8Array()) === content(after[name] ?? new Uint8Array()),
    );
    expect(untouched.length).toBeGreaterThan(5);
    for (const name of untouched) expect([name, after[name]]).toEqual([name, before[name]]);
  });
});

test("an empty part that is said to be packed, with nothing in the file, is an empty part", async () => {
  const empty = zipParts({ ...bookParts({ sheets: { S: sheetXml("") } }), "docProps/thumbnail.wmf": "" });
  const said = spoilEntry.field(empty, "docProps/thumbnail.wmf", "method", 8, { header: true });
  const after = await patchBook(said, [{ sheet: "S", row: 0, column: 0, value: 1 }]);
  expect(spoilEntry.read(after, "docProps/thumbnail.wmf")).toEqual(new Uint8Array());
});

test("UTF-16 that is cut off, or holds half a character, is refused", async () => {
  const parts = bookParts({ sheets: { S: "" } });
  const sheet = utf16(sheetXml('<row r="1"><c r="A1" t="str"><v>x</v></c></row>'), "le");
  const withSheet = (bytes: Uint8Array) => zipParts({ ...parts, "xl/worksheets/sheet1.xml": bytes });
  await expect(openWorkbook(withSheet(sheet))).resolves.toBeDefined();
  const odd = sheet.slice(0, -1);
  expect(await refusal(withSheet(odd))).toBe("is damaged: xl/worksheets/sheet1.xml is not UTF-16 text");
  const half = sheet.slice();
  half.set([0x00, 0xd8], sheet.length - 2);
  expect(await refusal(withSheet(half))).toBe("is damaged: xl/worksheets/sheet1.xml is not UTF-16 text");
});

describe("a sheet with no part of its own, such as a module of Excel 5.0", () => {
  const listed = (id: string): Uint8Array => {
    const book = unzipSync(bookOf('<row r="1"><c r="A1"><v>1</v></c></row>'));
    const xml = strFromU8(book["xl/workbook.xml"] ?? new Uint8Array()).replace(
      "<sheets>",
      `<sheets><sheet name="Module1" sheetId="9" state="veryHidden"${id}/>`,
    );
    return zipSync({ ...book, "xl/workbook.xml": new TextEncoder().encode(xml) });
  };

  test.each([' r:id=""', ""])("is passed over, when it is listed with%s", async (id) => {
    const given = listed(id);
    const book = await openWorkbook(given);
    expect(book.model.sheets.map(({ name }) => name)).toEqual(["S"]);
    const after = await book.patch([{ sheet: "S", row: 0, column: 0, value: 2 }]);
    expectOnlyChanged(given, after, ["xl/worksheets/sheet1.xml"]);
    const added = await book.patch([], { sheets: [{ name: "More", rows: [] }] });
    expect((await openWorkbook(added)).model.sheets.map(({ name }) => name)).toEqual(["S", "More"]);
  });

  test("but one whose relationship is missing is damage", async () => {
    expect(await refusal(listed(' r:id="rId99"'))).toBe('is damaged: the sheet "Module1" is missing');
  });
});
