import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { selections } from "../../../src/excel/formulas/selected-formula.js";
import { excelSelection } from "../../../src/excel/formulas/selection.js";
import { functions } from "../../formulas/functions.js";
import { FakeWorkbook } from "../fake-workbook.js";

const { formula } = excelSelection(functions);

let book: FakeWorkbook;
beforeEach(() => {
  book = new FakeWorkbook().open();
  book
    .sheet("Brew day")
    .put("B2", 1.046)
    .put("B3", 1.05)
    .put("C2", 20)
    .put("E2", '=IF(B2="","",_xldudf_GYLE_HYDROMETER(B2,C2,"Glass"))', 1.0461)
    .put("F2", "=GYLE.HYDROMETER(B2:B3,C2)", 1.0461)
    .put("F3", "", 1.0502, { anchor: "F2" })
    .put("G2", "=GYLE.ABV(GYLE.HYDROMETER(B2,C2),1.01)", 4.7)
    .put("G3", "=GYLE.ABV(B2+0.001,1.01)", 4.8)
    .put("H2", "=SUM(B2:B3)", 2.096);
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe("the formula behind the selected cell", () => {
  test("is read with what its calls get, whatever stands around them", async () => {
    book.selected = "E2";
    expect(await formula()).toEqual({
      sheet: "Brew day",
      address: "E2",
      formula: '=IF(B2="","",GYLE.HYDROMETER(B2,C2,"Glass"))',
      value: 1.0461,
      row: 0,
      column: 0,
      calls: [{ name: "HYDROMETER", args: [[[1.046]], [[20]], [["Glass"]]], isWhole: false }],
    });
  });

  test("may stand in another cell, where it fills several", async () => {
    book.selected = "F3";
    expect(await formula()).toMatchObject({
      address: "F3",
      formula: "=GYLE.HYDROMETER(B2:B3,C2)",
      value: 1.0502,
      row: 1,
      column: 0,
      calls: [{ args: [[[1.046], [1.05]], [[20]]], isWhole: true }],
    });
  });

  test("keeps calls within calls apart", async () => {
    book.selected = "G2";
    expect((await formula())?.calls).toEqual([
      { name: "HYDROMETER", args: [[[1.046]], [[20]]], isWhole: false },
      { name: "ABV", args: [{ call: 0 }, [[1.01]]], isWhole: true },
    ]);
  });

  test("has no arguments to tell where one is worked out", async () => {
    book.selected = "G3";
    expect((await formula())?.calls).toEqual([{ name: "ABV", args: undefined, isWhole: true }]);
  });

  test.each(["H2", "B2", "Z9"])("is none of ours in %s", async (address) => {
    book.selected = address;
    expect(await formula()).toBeUndefined();
  });

  test("is not known to be another cell's in builds that cannot tell", async () => {
    book.apiVersion = 1.09;
    book.selected = "F3";
    expect(await formula()).toBeUndefined();
  });
});

test("who listens is told of selections and calculations", async () => {
  const look = vi.fn();
  selections().on(look);
  await vi.waitFor(() => {
    expect(book.selectionChanged).toHaveLength(1);
  });
  await book.selectionChanged[0]?.();
  await book.calculated[0]?.();
  expect(look).toHaveBeenCalledTimes(2);
});
