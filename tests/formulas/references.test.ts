import { expect, test } from "vitest";
import { areaReference, resolveReference, type Names } from "../../src/formulas/references.js";
import { foldCase } from "../../src/formulas/sheet-name.js";
import type { TableShape } from "../../src/formulas/table-cells.js";

const batches: TableShape = {
  name: "Batches",
  sheet: "Brew day",
  area: { top: 3, left: 1, bottom: 9, right: 3 },
  headerRows: 1,
  totalsRows: 1,
  columns: ["Batch", "OG, true", "Read with"],
};
const defined: Record<string, string> = {
  glass: "='Brew day'!$C$2",
  moving: "='Brew day'!C2",
  spelled: '="The ""big"" one"',
  worked_out: "=INDEX('Brew day'!$C$2:$C$9,3)",
  read_with: "=Batches[Read with]",
};
const names: Names = {
  sheet: (name) => ["Season", "Brew day"].find((sheet) => foldCase(sheet) === foldCase(name)),
  defined: (name) => defined[foldCase(name)],
  table: (name) => (foldCase(name) === "batches" ? batches : undefined),
  tableAt: ({ sheet, row }) => (sheet === "Brew day" && row >= 3 && row <= 9 ? batches : undefined),
  spilledFrom: ({ sheet, row, column }) =>
    sheet === "Brew day" && row === 3 && column === 3 ? { top: 3, left: 3, bottom: 9, right: 3 } : undefined,
};
const at = { sheet: "Brew day", row: 5, column: 6 };
const area = (top: number, left: number, bottom: number, right: number, sheet = "Brew day") => ({
  sheet,
  top,
  left,
  bottom,
  right,
});

test.each([
  ["C2", area(1, 2, 1, 2)],
  ["$B$9:A1", area(0, 0, 8, 1)],
  ["season!C2", area(1, 2, 1, 2, "Season")],
  ["D4#", area(3, 3, 9, 3)],
  ["'brew day'!$D$4#", area(3, 3, 9, 3)],
  ["B:B", area(0, 1, 1_048_575, 1)],
  ["2:3", area(1, 0, 2, 16_383)],
  ["glass", area(1, 2, 1, 2)],
  ["'brew day'!GLASS", area(1, 2, 1, 2)],
  ["spelled", { text: 'The "big" one' }],
  ["batches", area(4, 1, 8, 3)],
  ["Batches[Read with]", area(4, 3, 8, 3)],
  ["read_with", area(4, 3, 8, 3)],
  ["[@[OG, true]]", area(5, 2, 5, 2)],
  ["Batches[[#This Row],[Read with]]", area(5, 3, 5, 3)],
])("%s leads to its cells", (reference, target) => {
  expect(resolveReference(reference, at, names)).toEqual(target);
});

test.each([
  "moving",
  "D5#",
  "D4:D5#",
  "worked_out",
  "nowhere",
  "Gone!A1",
  "[2]Season!A1",
  "Season:Gone!A1",
  "Batches[No such]",
  "Other[Batch]",
])("%s leads nowhere that can be told", (reference) => {
  expect(resolveReference(reference, at, names)).toBeUndefined();
});

test("[@…] outside of any table leads nowhere", () => {
  expect(resolveReference("[@Batch]", { ...at, sheet: "Season" }, names)).toBeUndefined();
});

test("cells are referred to by their sheet only from another one", () => {
  expect(areaReference(area(1, 1, 8, 1), "Brew day")).toBe("B2:B9");
  expect(areaReference(area(1, 1, 1, 1), "Season")).toBe("'Brew day'!B2");
});
