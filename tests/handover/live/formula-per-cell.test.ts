import { describe, expect, test } from "vitest";
import { CellFunctions } from "../../../src/engine/ours/cell-functions.js";
import { Book } from "../../../src/engine/references/book.js";
import { asLive } from "../../../src/handover/live.js";
import type { Cell, Formula, WorkbookModel } from "../../../src/workbook/model.js";
import { instruments } from "../../support/instruments.js";
import { liveFormulas } from "../live-cells.js";

const { functions } = liveFormulas().around;

/** What becomes of one formula that fills C1:C3, beside readings in A1:B3 of the sheet "Log". */
function handedOver(text: string, kind: Formula["kind"] = "spill", more: readonly Cell[] = []) {
  const area = { top: 0, left: 2, bottom: 2, right: 2 };
  const own: Cell[] = [0, 1, 2].flatMap((row) => [
    { row, column: 0, value: 1.05 - row / 100 },
    { row, column: 1, value: 20 + row },
    { row, column: 2, value: row, ...(row === 0 ? { formula: { text, kind, area } } : {}) },
  ]);
  const model: WorkbookModel = {
    sheets: [{ name: "Log", cells: [...own, ...more] }],
    names: [],
    tables: [],
    iterates: false,
  };
  return asLive({
    model,
    result: {
      book: new Book(model),
      changes: [],
      counts: { recalculated: 1, changed: 0 },
      errors: [],
      notes: [],
      cutOff: [],
      cycles: [],
    },
    functions: new CellFunctions(
      { functions: functions.all.map(({ declared }) => declared) },
      new Map(),
      "GYLE",
    ),
    instruments,
    date: "2026-03-01",
  });
}

describe("a formula that fills several cells", () => {
  test.each(["spill", "array"] as const)("(%s) becomes a formula in each, with its value", (kind) => {
    const { changes, notes } = handedOver("_xldudf_GYLE_HYDROMETER(A1:A3,B1:B3)", kind);
    expect(changes.map(({ row, column, value }) => [row, column, value])).toEqual([
      [0, 2, 0],
      [1, 2, 1],
      [2, 2, 2],
    ]);
    for (const [row, { formula }] of changes.entries()) {
      expect(formula?.kind).toBe("plain");
      expect(formula?.text).toMatch(
        new RegExp(`^IF\\(OR\\(A${row + 1}=0,.*COUNT\\(B${row + 1},A${row + 1}\\)`),
      );
    }
    expect(notes).toHaveLength(1);
    expect(notes[0]?.text).toMatch(
      /^=GYLE\.HYDROMETER\(A1:A3,B1:B3\)\nLive without the add-in: HYDROMETER within/,
    );
  });

  test("has a single cell and what stands in it repeated", () => {
    const { changes } = handedOver('GYLE.HYDROMETER(A1:A3,$B$2,"Finishing glass")');
    expect(changes.map(({ formula }) => formula?.text.match(/COUNT\(\w+,\w+\)/g))).toEqual(
      [1, 2, 3].map((row) => [`COUNT(B2,A${row})`]),
    );
  });

  test("stays values where one of its cells names no instrument and others do", () => {
    const named = (...names: readonly string[]) =>
      handedOver(
        "GYLE.HYDROMETER(A1:A3,B1:B3,D1:D3)",
        "spill",
        names.map((value, row) => ({ row, column: 3, value })),
      );
    expect(named("Starting glass", "", "Finishing glass").notes[0]?.text).toMatch(
      /not every row of it names/,
    );
    expect(named("Starting glass").changes).toHaveLength(1);
    expect(named("Starting glass", "Old sixty", "Starting glass").changes).toHaveLength(3);
    expect(named().changes).toHaveLength(3);
  });

  test.each([
    ["GYLE.HYDROMETER(A1:A2,B1:B2)", /several cells at once/],
    ["ROUND(GYLE.HYDROMETER(A1:A3,B1:B3),3)", /several cells at once/],
    ["GYLE.HYDROMETER(A:A,B:B)", /more than 5000 cells/],
    ["GYLE.FERMENT.SMOOTH(B1:B3,A1:A3)", /several cells at once/],
  ])("stays values where that cannot be done: %s", (text, why) => {
    const { changes, notes } = handedOver(text);
    expect(changes).toEqual([{ sheet: "Log", row: 0, column: 2, value: 0, formula: null }]);
    expect(notes[0]?.text).toMatch(why);
  });
});
