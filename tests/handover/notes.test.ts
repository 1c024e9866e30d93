import { expect, test } from "vitest";
import { folderWith, read, recalc } from "../recalc/command.js";
import { buildBook, partText, partTexts, sheetXml } from "../support/build-workbook.js";

const number = (address: string, value: number): string => `<c r="${address}"><v>${value}</v></c>`;
const glass = (address: string, name: string): string =>
  `<c r="${address}" t="inlineStr"><is><t>${name}</t></is></c>`;
const profile = {
  kind: "hydrometer",
  scale: "SG",
  temperatureUnit: "C",
  calibrationTemperature: 20,
  read: "level",
};
const instruments = JSON.stringify({
  version: 1,
  instruments: ["Long glass", "Short glass"].map((name) => ({ ...profile, name })),
});

/** Readings down a column, with the formula that each row has. */
async function copyOf(
  rows: number,
  formula: (row: number) => string,
  reading: (row: number) => number,
  name = "",
) {
  const xml = Array.from({ length: rows }, (_, i) => i + 1).map(
    (row) =>
      `<row r="${row}">${number(`A${row}`, reading(row))}${number(`B${row}`, 20)}` +
      `${glass(`C${row}`, row <= 3 ? "Long glass" : "Short glass")}<c r="D${row}"><f>${formula(row)}</f><v>1</v></c></row>`,
  );
  const book = buildBook({ sheets: { S: sheetXml(xml.join("")) } });
  const folder = folderWith({ "book.xlsx": book, "mine.json": instruments });
  await recalc(folder, "book.xlsx", "--values", "--instruments", "mine.json", ...(name === "" ? [] : [name]));
  return read(folder, "book-values.xlsx");
}

const notesIn = (bytes: Uint8Array) =>
  [...partText(bytes, "xl/comments1.xml").matchAll(/<comment ref="(\w+)"[^>]*><text><t[^>]*>([^<]*)</g)].map(
    ([, ref, text]) => [ref, text],
  );

test("like formulas down a column share one note, until the instrument changes or a cell shows an error", async () => {
  const copy = await copyOf(
    7,
    (row) => `_xldudf_GYLE_HYDROMETER(A${row},B${row},C${row})`,
    (row) => (row === 6 ? -1 : 1.05),
  );
  expect(notesIn(copy)).toEqual([
    ["D1", expect.stringMatching(/^=GYLE\.HYDROMETER\(A1,B1,C1\)\nLong glass: .*\nLikewise down to D3\.$/)],
    ["D4", expect.stringMatching(/^=GYLE\.HYDROMETER\(A4,B4,C4\)\nShort glass: .*\nLikewise down to D5\.$/)],
    ["D6", expect.stringMatching(/^=GYLE\.HYDROMETER\(A6,B6,C6\)\n#VALUE! .*\nShort glass: [^\n]*$/)],
    ["D7", expect.stringMatching(/^=GYLE\.HYDROMETER\(A7,B7,C7\)\nShort glass: [^\n]*$/)],
  ]);
});

test("formulas that differ each have their own", async () => {
  const copy = await copyOf(
    3,
    (row) => `_xldudf_GYLE_HYDROMETER(A${row},B1)`,
    () => 1.05,
  );
  expect(notesIn(copy)).toHaveLength(3);
});

test("five thousand like formulas have one note, and the file stays small", async () => {
  const copy = await copyOf(
    5_000,
    (row) => `_xldudf_GYLE_CONVERT(A${row},"SG","P")`,
    (row) => 1 + row / 1e5,
  );
  expect(notesIn(copy)).toEqual([["D1", '=GYLE.CONVERT(A1,"SG","P")\nLikewise down to D5000.']]);
  const size = (name: string): number => partTexts(copy).get(name)?.length ?? 0;
  expect(size("xl/comments1.xml") + size("xl/drawings/vmlDrawing1.vml")).toBeLessThan(5000);
});
