import fc from "fast-check";
import { expect, test } from "vitest";
import { cellAddress } from "../../../src/cells/a1.js";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { buildBook, sheetXml } from "../../support/build-workbook.js";
import { patchedSheet } from "../../support/patched.js";

const place = { row: fc.nat(6), column: fc.nat(6) };
const cell = fc.record({
  ...place,
  content: fc.constantFrom("<v>1</v>", "", "<f>1+1</f><v>2</v>"),
  style: fc.constantFrom("", ' s="1"'),
});
const change = fc.record({ ...place, value: fc.oneof(fc.nat(9), fc.constantFrom("x", true, null)) });

type At = Readonly<{ row: number; column: number }>;
const key = ({ row, column }: At) => cellAddress(row, column);
const lastPerPlace = <T extends At>(items: readonly T[]) => [
  ...new Map(items.map((item) => [key(item), item])).values(),
];

function sheetOf(cells: readonly { row: number; column: number; content: string; style: string }[]): string {
  const rows = Array.from({ length: 7 }, (_, row) => {
    const inRow = cells.filter((c) => c.row === row).sort((a, b) => a.column - b.column);
    const inner = inRow.map(({ content, style, ...at }) =>
      content === "" ? `<c r="${key(at)}"${style}/>` : `<c r="${key(at)}"${style}>${content}</c>`,
    );
    // Some rows are missing and some are there without cells.
    if (inner.length === 0) return row % 2 === 0 ? "" : `<row r="${row + 1}"/>`;
    return `<row r="${row + 1}" spans="1:2">${inner.join("")}</row>`;
  });
  return sheetXml(rows.join("\n"), '<dimension ref="B2"/>');
}

function elements(xml: string): Map<string, string> {
  const found = xml.matchAll(/<c r="([A-Z]+\d+)"[^>]*?(?:\/>|>.*?<\/c>)/g);
  return new Map(Array.from(found, ([element, r = ""]) => [r, element]));
}

test("whatever changes come to whatever cells, they are there afterwards and all other cells keep their bytes", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(cell), fc.array(change), async (cellList, changeList) => {
      const before = sheetOf(lastPerPlace(cellList));
      const after = await patchedSheet(before, changeList);
      const changed = new Map(lastPerPlace(changeList).map((item) => [key(item), item.value]));

      // Opening it again also proves that rows and cells are in order.
      const cells = (await openWorkbook(buildBook({ sheets: { S: after } }))).model.sheets[0]?.cells ?? [];
      const values = new Map(cells.map((c) => [key(c), c.value]));
      for (const [r, value] of changed) expect([r, values.get(r) ?? null]).toEqual([r, value]);
      const now = elements(after);
      for (const [r, element] of elements(before)) if (!changed.has(r)) expect(now.get(r)).toBe(element);
    }),
    { numRuns: 250 },
  );
});
