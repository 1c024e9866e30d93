import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import {
  bookOf,
  buildBook,
  bookParts,
  main,
  partText,
  sheetXml,
  zipParts,
} from "../../support/build-workbook.js";
import { brewLog } from "../../recalc/command.js";
import { convert } from "../../support/libreoffice.js";
import { expectOnlyChanged, patchBook } from "../../support/patched.js";
import { libreOffice } from "../../support/tools.js";

const rows = [["Handed over", null, 45000.5], [], [' <Öl & "Hopfen"> ', true, { error: "#N/A" }]];
const added = { sheets: [{ name: "Hand-over", rows, widths: [20, 8] }] };

const sheetsIn = async (bytes: Uint8Array) => (await openWorkbook(bytes)).model.sheets;
const namesIn = async (bytes: Uint8Array) => (await sheetsIn(bytes)).map(({ name }) => name);

const values = [
  [0, 0, "Handed over"],
  [0, 2, 45000.5],
  [2, 0, ' <Öl & "Hopfen"> '],
  [2, 1, true],
  [2, 2, { error: "#N/A" }],
];

describe("a sheet that is added", () => {
  test("comes behind the others with its cells, and nothing else changes but what lists it", async () => {
    const before = brewLog();
    const after = await patchBook(before, [], added);
    const names = await namesIn(before);
    expect(await namesIn(after)).toEqual([...names, "Hand-over"]);
    const cells = (await sheetsIn(after)).at(-1)?.cells ?? [];
    expect(cells.map(({ row, column, value }) => [row, column, value])).toEqual(values);
    const part = `xl/worksheets/sheet${names.length + 1}.xml`;
    const lists = ["[Content_Types].xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"];
    expectOnlyChanged(before, after, lists, [part]);
    expect(partText(after, "[Content_Types].xml")).toContain(`PartName="/${part}"`);
  });

  test("takes a number where its name is taken, in any letter case", async () => {
    const book = buildBook({ sheets: { "HAND-OVER": sheetXml(""), "hand-over 2": sheetXml("") } });
    expect((await namesIn(await patchBook(book, [], added))).at(-1)).toBe("Hand-over 3");
    const long = { sheets: [1, 2].map(() => ({ name: "x".repeat(40), rows: [] })) };
    expect((await namesIn(await patchBook(bookOf(""), [], long))).slice(1)).toEqual([
      "x".repeat(31),
      `${"x".repeat(29)} 2`,
    ]);
  });

  test("keeps the name that formulas refer to it by, or is refused", async () => {
    const referenced = { sheets: [{ name: "Hand-over", isReferenced: true as const, rows: [] }] };
    expect((await namesIn(await patchBook(bookOf(""), [], referenced))).at(-1)).toBe("Hand-over");
    const book = buildBook({ sheets: { "HAND-OVER": sheetXml("") } });
    await expect(patchBook(book, [], referenced)).rejects.toThrow(/already has a sheet named "Hand-over"/);
  });

  test("gets an id of its own, and the namespace that the workbook may not have declared", async () => {
    const parts = bookParts({ sheets: { S: sheetXml("") } });
    const officeNamespace = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    parts["xl/workbook.xml"] =
      `<x:workbook xmlns:x="${main}"><x:sheets>` +
      `<x:sheet name="S" sheetId="7" xmlns:q="${officeNamespace}" q:id="s1"/></x:sheets></x:workbook>`;
    const after = await patchBook(zipParts(parts), [], added);
    expect(await namesIn(after)).toEqual(["S", "Hand-over"]);
    expect(partText(after, "xl/workbook.xml")).toContain(
      `<x:sheet name="Hand-over" sheetId="8" xmlns:r="${officeNamespace}" r:id="`,
    );
  });

  test.each(["", "a/b", "a[1]", "'a"])("is refused under the name %j", async (name) => {
    await expect(patchBook(bookOf(""), [], { sheets: [{ name, rows: [] }] })).rejects.toThrow(RangeError);
  });

  test.runIf(libreOffice.present)(
    "opens in LibreOffice with the same cells",
    { timeout: 60_000 },
    async () => {
      const after = await patchBook(brewLog(), [], added);
      const theirs = await sheetsIn(await convert(after, "xlsx"));
      expect(theirs.map(({ name }) => name)).toEqual(await namesIn(after));
      expect(theirs.at(-1)?.cells.map(({ row, column, value }) => [row, column, value])).toEqual(values);
    },
  );
});
