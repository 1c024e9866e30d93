import { describe, expect, test } from "vitest";
import { Book } from "../../../src/engine/references/book.js";
import { asLive } from "../../../src/handover/live.js";
import type { Cell, WorkbookModel } from "../../../src/workbook/model.js";
import { instruments } from "../../support/instruments.js";
import { liveFormulas } from "../live-cells.js";

const { functions } = liveFormulas().around;

/** A copy of a workbook with true gravities of three readings, and these other sheets. */
function copyOf(text: (row: number) => string, ...others: readonly string[]) {
  const cells: Cell[] = [1, 2, 3].flatMap((row) => [
    { row: row - 1, column: 0, value: 1.04 },
    { row: row - 1, column: 1, value: 20 },
    { row: row - 1, column: 2, value: 1.04, formula: { text: text(row), kind: "plain" } },
  ]);
  const model: WorkbookModel = {
    sheets: [{ name: "Log", cells }, ...others.map((name) => ({ name, cells: [] }))],
    names: [],
    tables: [],
    iterates: false,
  };
  const counts = { recalculated: 3, changed: 0 };
  const result = {
    book: new Book(model),
    changes: [],
    counts,
    errors: [],
    notes: [],
    cycles: [],
    cutOff: [],
  };
  return asLive({ model, result, functions, instruments, date: "2026-03-01" });
}

const corrected = (row: number): string => `GYLE.HYDROMETER(A${row},B${row},"Starting glass")`;

describe("the sheet of coefficients", () => {
  const { sheets, changes, notes } = copyOf(corrected);
  const rows = sheets[0]?.rows ?? [];
  const find = (label: string) => rows.find(([first]) => first === label);

  test("says for each function and instrument its range, its worst error, its source and the date", () => {
    expect(sheets[0]?.name).toBe("Gylesheet");
    expect(find('HYDROMETER(reading, temperature, "Starting glass")')).toBeDefined();
    expect(find("Range")?.[1]).toMatch(/^temperature .* to 80, reading 1\.03 to 1\.09?\d*$/);
    const [, worst = ""] =
      /^(0\.\d+) SG, at \d+ places$/.exec(JSON.stringify(find("Worst error")?.[1]).slice(1, -1)) ?? [];
    expect(Number(worst)).toBeGreaterThan(0);
    expect(Number(worst)).toBeLessThan(0.000_02);
    expect(find("Source")?.[1]).toMatch(/HYDROMETER/);
    expect(find("Date")?.[1]).toBe("2026-03-01");
  });

  test("holds the numbers that the formulas refer to, once for all rows", () => {
    const texts = changes.flatMap(({ formula }) => formula?.text ?? []);
    expect(texts).toHaveLength(3);
    const blocks = texts.map((text) => text.match(/Gylesheet![$A-Z\d:]+/g));
    expect(blocks[1]).toEqual(blocks[0]);
    const [, top = "", bottom = ""] = /\$B\$(\d+):\$[A-Z]+\$(\d+)/.exec(blocks[0]?.[0] ?? "") ?? [];
    for (const row of rows.slice(Number(top) - 1, Number(bottom)))
      for (const value of row) expect(value).toBeTypeOf("number");
    expect(rows[Number(top) - 2]?.[0]).toBe("power");
    for (const text of texts) expect(text.length).toBeLessThanOrEqual(400);
  });

  test("has one note for the run of like formulas", () => {
    expect(notes).toHaveLength(1);
    expect(notes[0]?.text).toMatch(/Likewise down to [A-Z]3\.$/);
    expect(copyOf((row) => (row === 2 ? "GYLE.ABV(A2,B2)" : corrected(row))).notes).toHaveLength(3);
  });

  test("gets another name where there is such a sheet already, and formulas refer to that", () => {
    const again = copyOf(corrected, "gyleSheet");
    expect(again.sheets[0]?.name).toBe("Gylesheet 2");
    expect(again.changes[0]?.formula?.text).toContain("'Gylesheet 2'!$B$");
  });

  test("is not there where nothing is live", () => {
    const { sheets: none } = copyOf((row) => `GYLE.ABV(A${row},B${row},"DUTY-UK")`);
    expect(none.map(({ name }) => name)).toEqual(["Hand-over"]);
  });
});

test.each([
  "HYDROMETER(A5,B5)",
  'HYDROMETER(A5,B5,"Plato spindle")',
  "ABV(A5,B5)",
  "ABW(A5,B5)",
  "ATTENUATION.REAL(A5,B5)",
  "ATTENUATION.APPARENT(A5,B5)",
  "EXTRACT.REAL(A5,B5)",
  "ENERGY(A5,B5)",
  "CO2.LATENT(A5,B5)",
  "FINAL.EXPECTED(A5,B5)",
  "EXTRACT.MASS(A5,B5)",
  "VOLUME.COOLED(A5,B5)",
])("%s is a formula of at most 400 characters", (call) => {
  expect(liveFormulas().of(`GYLE.${call}`, { sheet: 0, row: 4, column: 8 }).text.length).toBeLessThanOrEqual(
    400,
  );
});
