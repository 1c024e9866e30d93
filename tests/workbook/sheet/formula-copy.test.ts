import { describe, expect, test } from "vitest";
import { formulaCopy } from "../../../src/workbook/sheet/formula-copy.js";

// Rows and columns count from 0: the formula stands in B2. A sheet ends at XFD1048576 (ECMA-376, Part 1, 18.3.1.13 and 18.3.1.73; numbers from memory).
const last = { row: 1_048_575, column: 16_383 };
const copied = (text: string, row: number, column: number, edges: "wrap" | "error"): string =>
  formulaCopy(text, 1, 1, edges)(row, column);

test("what is relative moves with the cell, what is fixed stays", () => {
  expect(copied("A1+$A1+A$1+$A$1", 4, 3, "error")).toBe("C4+$A4+C$1+$A$1");
  expect(copied("Sheet2!A1:C3", 0, 1, "error")).toBe("Sheet2!#REF!");
  expect(copied("Sheet2!A2:C3", 0, 1, "error")).toBe("Sheet2!A1:C2");
});

describe("a reference that would lie outside the sheet", () => {
  test.each([
    ["one cell above the first row", "A1", 0, 1, "#REF!"],
    ["one cell left of the first column", "A1", 1, 0, "#REF!"],
    ["just inside at both", "B2", 0, 0, "A1"],
    ["one cell below the last row", "B3", last.row, 1, "#REF!"],
    ["one cell right of the last column", "C2", 1, last.column, "#REF!"],
    ["just inside at both ends", "B2", last.row, last.column, "XFD1048576"],
  ])("is dead: %s", (_, text, row, column, expected) => {
    expect(copied(text, row, column, "error")).toBe(expected);
  });

  test.each([
    ["A1", 0, 1, "A1048576"],
    ["A1", 1, 0, "XFD1"],
    ["B3", last.row, 1, "B1"],
    ["C2", 1, last.column, "A2"],
  ])("comes in from the other end in a shared formula: %s", (text, row, column, expected) => {
    expect(copied(text, row, column, "wrap")).toBe(expected);
  });
});
