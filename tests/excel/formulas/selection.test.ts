import { OfficeMockObject } from "office-addin-mock";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { excelSelection } from "../../../src/excel/formulas/selection.js";
import { functions } from "../../formulas/functions.js";
import { FakeWorkbook } from "../fake-workbook.js";

const selection = excelSelection(functions);

let book: FakeWorkbook;
beforeEach(() => {
  book = new FakeWorkbook().open();
  book.sheet("Brew day").put("B2", 1.046).put("B3", "#N/A").put("B4", "").put("C2", "=B2*2", 2.092);
  book.sheet("O'Hara 1").put("A1", "x");
  book.tables.push({ name: "Tanks", sheet: "Brew day", area: "B1:C4", columns: ["OG", "Twice"] });
  book.names.push({ name: "start", formula: "='Brew day'!$B$2" });
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe("the selected cells", () => {
  test("come with a reference and with errors told from texts", async () => {
    book.selected = "B2:B4";
    expect(await selection.read()).toEqual({
      reference: "B2:B4",
      rows: [[1.046], [{ code: "#N/A" }], [""]],
    });
  });

  test("of a whole column are those in use", async () => {
    book.selected = "B:B";
    expect((await selection.read()).reference).toBe("B2:B4");
  });

  test("outside of those in use are blank", async () => {
    book.selected = "Z9:AA9";
    expect(await selection.read()).toEqual({ reference: "Z9:AA9", rows: [["", ""]] });
  });

  test("are refused beyond 10,000, before they are read", async () => {
    book.selected = "A1:A10001";
    await expect(selection.read()).rejects.toThrow("These are 10,001 cells; up to 10,000 can be read.");
    book.selected = "A1:A10000";
    expect((await selection.read()).rows).toHaveLength(10_000);
  });
});

describe("cells by a typed reference", () => {
  test.each([
    [" =$B$2 ", "B2"],
    ["'o''hara 1'!A1:B1", "'O''Hara 1'!A1:B1"],
    ["start", "B2"],
    ["Tanks[Twice]", "C2:C4"],
  ])("%s", async (typed, reference) => {
    expect((await selection.at(typed)).reference).toBe(reference);
  });

  test.each(["", "nowhere", "Gone!A1", "B2+1", "[2]Sheet!A1", "#REF!"])("%s leads nowhere", async (typed) => {
    await expect(selection.at(typed)).rejects.toThrow("leads to no cells of this workbook");
  });
});

describe("a formula for the selected cell", () => {
  const cell = (address: string): unknown => book.sheets[0]?.cells.get(address)?.formula;

  test("goes into an empty one", async () => {
    book.selected = "D2:D9";
    expect(await selection.insert("=GYLE.ABV(B2,C2)")).toEqual({ inserted: "Brew day!D2" });
    expect(cell("D2")).toBe("=GYLE.ABV(B2,C2)");
  });

  test("does not go over another unless it is told to", async () => {
    book.selected = "C2";
    const held = { occupied: "=B2*2", at: "Brew day!C2" };
    expect(await selection.insert("=1")).toEqual(held);
    expect(cell("C2")).toBe("=B2*2");
    expect(await selection.insert("=1", held)).toEqual({ inserted: "Brew day!C2" });
    expect(cell("C2")).toBe("=1");
  });

  test("goes over nothing but what was agreed to, wherever the selection has gone meanwhile", async () => {
    book.selected = "C2";
    const held = await selection.insert("=1");
    if (!("occupied" in held)) throw new Error("the cell was empty");
    book.selected = "B2";
    const other = await selection.insert("=1", held);
    expect(other).toMatchObject({ at: "Brew day!B2" });
    expect(cell("C2")).toBe("=B2*2");
    book.sheets[0]?.put("C2", "=B2*3", 3);
    book.selected = "C2";
    expect(await selection.insert("=1", held)).toEqual({ occupied: "=B2*3", at: "Brew day!C2" });
  });

  test("does not go over a cell that another formula fills", async () => {
    book.sheets[0]?.put("D1", "=SEQUENCE(2)", 1, { anchor: "D1" }).put("D2", "", 2, { anchor: "D1" });
    book.selected = "D2";
    expect(await selection.insert("=1")).toEqual({ occupied: "2", at: "Brew day!D2" });
  });

  test("is not tried on a protected sheet, but in an unlocked cell of it", async () => {
    const [sheet] = book.sheets;
    if (sheet) sheet.isProtected = true;
    sheet?.put("D3", "", "", { unlocked: true });
    book.selected = "D2";
    await expect(selection.insert("=1")).rejects.toThrow('The sheet "Brew day" is protected.');
    book.selected = "D3";
    expect(await selection.insert("=1")).toEqual({ inserted: "Brew day!D3" });
  });
});

test("insert reads nothing that it has not loaded, by the maker's own stand-in too", async () => {
  const excel: Record<string, unknown> = {
    context: {
      workbook: {
        cell: {
          address: "Brew day!D2",
          formulas: [["=A1"]],
          values: [[5]],
          format: { protection: { locked: true } },
          worksheet: { name: "Brew day", protection: { protected: false } },
        },
        getActiveCell(this: { cell: unknown }) {
          return this.cell;
        },
      },
    },
    run(this: { context: unknown }, _: unknown, batch: (context: unknown) => Promise<unknown>) {
      return batch(this.context);
    },
  };
  vi.stubGlobal("Excel", new OfficeMockObject(excel));
  expect(await selection.insert("=1")).toEqual({ occupied: "=A1", at: "Brew day!D2" });
});
