import { expect, test, vi } from "vitest";
import { Grid } from "../../../src/engine/grid.js";
import { calculated, plain, type SheetSketch, type Sketch, workbook } from "../workbooks.js";

const LETTERS = "ABCDEFGHIJKLMN".split("");

/**
 * A column in which each row reads the one above through INDIRECT, beside one that looks twice in whole columns of another
 * sheet, and formulas of ours that read both.
 */
function chained(rows: number) {
  const main: Record<string, Sketch> = { A1: 0, B1: "a", C1: "b" };
  const query: Record<string, Sketch> = {};
  for (let row = 2; row <= rows; row++) {
    main[`A${row}`] = plain(
      'IF((T[[#This Row],[a]]=List!$B$1),INDIRECT("A"&ROW(T[[#This Row],[b]])-1)+1,0)',
      row - 1,
    );
    const found = `VLOOKUP(ROW($A${row})-1,Query!$A:$N,9,FALSE)`;
    main[`B${row}`] = plain(`IF(ISNA(${found})," ",${found})`, "x");
    main[`C${row}`] = row;
    for (const [column, letter] of LETTERS.entries())
      query[`${letter}${row}`] = column === 0 ? row - 1 : column === 8 ? "x" : row * column;
  }
  const seed: SheetSketch = {
    A1: plain(`GYLE.DOUBLE(Main!A${rows})`),
    A2: plain(`GYLE.IDENTITY(Main!B${rows})`),
  };
  return workbook(
    { Main: main, List: { B1: "x" }, Query: query, Seed: seed },
    {
      tables: [
        {
          name: "T",
          sheet: "Main",
          area: { top: 0, left: 0, bottom: rows - 1, right: 2 },
          headerRows: 1,
          totalsRows: 0,
          columns: ["n", "a", "b"],
        },
      ],
    },
  );
}

/** How many cells are read when it is recalculated. */
function cellsRead(rows: number): number {
  const model = chained(rows);
  const read = vi.spyOn(Grid.prototype, "get");
  try {
    const after = calculated(model);
    expect(after.at("Seed!A1")).toBe(2 * (rows - 1));
    expect(after.at("Seed!A2")).toBe("x");
    expect(after.notes).toEqual([]);
    return read.mock.calls.length;
  } finally {
    read.mockRestore();
  }
}

// Each look-up by itself reads 14 columns of all rows, so that 4 times as many rows would be 16 times the work.
test("4 times as many rows that find cells and look in whole columns are about 4 times the work", () => {
  expect(cellsRead(400)).toBeLessThan(5 * cellsRead(100));
});
