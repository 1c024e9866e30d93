import { expect, test } from "vitest";
import { resultsOnly } from "../../../src/desk/univer/late-results.js";

test("results reach cells that have a formula now, and no others", () => {
  const formulas = new Set(["0,0", "2,0", "3,0"]);
  const results = {
    0: { 0: { v: "#SPILL!" } },
    // Typed over since the calculation began: a number, and formulas of which the cell as it was is among the results.
    1: { 0: { v: 7 } },
    2: { 0: { f: "=A1", v: 3 } },
    3: { 0: null },
  };
  expect(resultsOnly(results, (row, column) => formulas.has(`${row},${column}`))).toEqual({
    0: { 0: { v: "#SPILL!" } },
  });
});
