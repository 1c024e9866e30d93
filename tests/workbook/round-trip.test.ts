import { unzipSync } from "fflate";
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { bookOf, bookParts, partText, partTexts, sheetXml, zipParts } from "../support/build-workbook.js";
import { expectOnlyChanged, patchBook } from "../support/patched.js";
import { streamedZip, zip64 } from "../support/zip-forms.js";

const sample = new Uint8Array(readFileSync(new URL("../workbooks/brew-log-existing.xlsx", import.meta.url)));
const sheet1 = "xl/worksheets/sheet1.xml";

/** Names, times and methods from the directory of a zip file, read independently of the code under test. */
function directory(bytes: Uint8Array): [name: string, time: number, method: number][] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const entries: [string, number, number][] = [];
  let at = view.getUint32(bytes.length - 6, true);
  while (view.getUint32(at, true) === 0x02014b50) {
    const length = view.getUint16(at + 28, true);
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + length));
    entries.push([name, view.getUint32(at + 12, true), view.getUint16(at + 10, true)]);
    at += 46 + length + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return entries;
}

describe("the existing brew log", () => {
  test("without changes keeps every part to the byte, in order, with time and method", async () => {
    const patched = await patchBook(sample, []);
    expect(unzipSync(patched)).toEqual(unzipSync(sample));
    expect(directory(patched)).toEqual(directory(sample));
    expect(directory(patched)).toHaveLength(18);
  });

  test("with every value given as it is keeps every part to the byte", async () => {
    const book = await openWorkbook(sample);
    const changes = book.model.sheets.flatMap(({ name, cells }) =>
      cells.map((cell) => ({ sheet: name, ...cell })),
    );
    expect(changes).toHaveLength(1479);
    expect(unzipSync(await book.patch(changes))).toEqual(unzipSync(sample));
  });

  test("with one value changed differs in that element only", async () => {
    const patched = await patchBook(sample, [{ sheet: "Batches", row: 3, column: 9, value: 4.1 }]);
    expectOnlyChanged(sample, patched, [sheet1]);
    const stored = "</f><v>4.06875000000002</v></c>";
    const xml = partText(sample, sheet1);
    expect(xml.indexOf(stored)).toBe(xml.lastIndexOf(stored));
    expect(partText(patched, sheet1)).toBe(xml.replace(stored, "</f><v>4.1</v></c>"));
  });

  test("with all results changed reads back as changed, and all the rest as it was", async () => {
    const book = await openWorkbook(sample);
    const changes = book.model.sheets.flatMap(({ name, cells }) =>
      cells
        .filter(({ formula }) => formula)
        .map(({ row, column }) => ({ sheet: name, row, column, value: row * 1000 + column })),
    );
    expect(changes.length).toBeGreaterThan(50);
    const patched = await book.patch(changes);
    expectOnlyChanged(sample, patched, [sheet1, "xl/worksheets/sheet2.xml"]);
    const after = (await openWorkbook(patched)).model.sheets.flatMap(({ cells }) => cells);
    const expected = book.model.sheets
      .flatMap(({ cells }) => cells)
      .map((cell) => (cell.formula ? { ...cell, value: cell.row * 1000 + cell.column } : cell));
    expect(after).toEqual(expected);
  });
});

test("a file in the middle of a larger buffer is read from its own place", async () => {
  const buffer = new Uint8Array(sample.length + 30).fill(0x50);
  buffer.set(sample, 13);
  const book = await openWorkbook(buffer.subarray(13, 13 + sample.length));
  expect(book.model).toEqual((await openWorkbook(sample)).model);
});

describe("other forms of zip file are read and patched alike", () => {
  const parts = bookParts({ sheets: { S: sheetXml('<row r="1"><c r="A1"><v>1</v></c></row>') } });
  const plain = zipParts(parts);

  test.each([
    ["with sizes behind the data", streamedZip(parts)],
    ["with 64-bit sizes", zip64(plain)],
    [
      "with a comment at the end",
      withComment(plain, "brewed in PK\u0005\u0006 and then left to ripen for some weeks"),
    ],
  ])("%s", async (_form, bytes) => {
    const patched = await patchBook(bytes, []);
    expect(unzipSync(patched)).toEqual(unzipSync(plain));
    expect(directory(patched).map(([name]) => name)).toEqual(Object.keys(parts));
  });
});

function withComment(bytes: Uint8Array, text: string): Uint8Array {
  const comment = new TextEncoder().encode(text);
  const all = new Uint8Array([...bytes, ...comment]);
  new DataView(all.buffer).setUint16(bytes.length - 2, comment.length, true);
  return all;
}

test("stored parts stay stored, folders stay, and part names beyond ASCII survive", async () => {
  const parts = { "xl/media/": "", "xl/media/größe.bin": "x".repeat(100) };
  const bytes = bookOf("", { parts });
  const patched = await patchBook(bytes, [{ sheet: "S", row: 0, column: 0, value: 1 }]);
  expectOnlyChanged(bytes, patched, [sheet1]);
  expect(partTexts(patched).get("xl/media/größe.bin")).toBe("x".repeat(100));
  expect([...partTexts(patched).keys()]).toContain("xl/media/");
});
