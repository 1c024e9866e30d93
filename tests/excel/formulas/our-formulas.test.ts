import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { excelFormulas } from "../../../src/excel/formulas/our-formulas.js";
import type { OurFormula, Work } from "../../../src/pane/ports/formulas-port.js";
import { functions } from "../../formulas/functions.js";
import { FakeWorkbook } from "../fake-workbook.js";
import { ExcelError } from "../remote.js";

const { find, calls, recalculate, rename, repair, show } = excelFormulas(functions);
const quietly = (): Work => ({ onProgress: () => undefined, signal: new AbortController().signal });
const where = ({ sheet, address }: { sheet: string; address: string }): string => `${sheet}!${address}`;

let book: FakeWorkbook;
beforeEach(() => {
  book = new FakeWorkbook().open();
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

/** Two sheets, one of them hidden, with names of instruments in every place that they can stand in. */
function season(): void {
  book
    .sheet("Brew day")
    .put("B2", 1.046)
    .put("C2", 20)
    .put("D2", "Glass")
    .put("D3", "Old one")
    .put("E2", "=GYLE.HYDROMETER(B2,C2,D2)", 1.0461)
    .put("E3", '=GYLE.HYDROMETER(B2,C2," glass ")', 1.0461)
    .put("E4", "=SUM(B2:B3)", 1.046)
    .put("E5", '="GYLE.ABV(1,2)"', "GYLE.ABV(1,2)");
  const hidden = book.sheet("Cellar");
  hidden.visibility = "VeryHidden";
  hidden
    .put("A1", "=_xldudf_GYLE_HYDROMETER('Brew day'!B2,'Brew day'!C2,'brew day'!D2:D3)", 1.0461)
    .put("A2", "=GYLE.HYDROMETER(1.05,20,house_glass)", 1.05)
    .put("A3", '=GYLE.HYDROMETER(1.05,20,IF(A1>1,"Glass","Old one"))', 1.05)
    .put("A4", "=GYLE.INSTRUMENT([@With],1)", "SG")
    .put("B3", "With")
    .put("B4", "Float → 🍺");
  book.names.push({ name: "House_Glass", formula: "='Brew day'!$D$2" });
  book.tables.push({ name: "Tanks", sheet: "Cellar", area: "A3:B4", columns: ["Result", "With"] });
}

describe("finding our formulas", () => {
  test("on every sheet, with the instruments that they name, wherever these stand", async () => {
    season();
    const found = await find(quietly());
    expect(found.map((f) => [where(f), f.instruments, f.anyInstrument])).toEqual([
      ["Brew day!E2", ["Glass"], false],
      ["Brew day!E3", [" glass "], false],
      ["Cellar!A1", ["Glass", "Old one"], false],
      ["Cellar!A2", ["Glass"], false],
      ["Cellar!A3", [], true],
      ["Cellar!A4", ["Float → 🍺"], false],
    ]);
    expect(found[2]?.formula).toBe("=GYLE.HYDROMETER('Brew day'!B2,'Brew day'!C2,'brew day'!D2:D3)");
    expect(found[0]?.value).toBe(1.0461);
  });

  test("of a result that spills, only in its first cell, also where Excel repeats the formula", async () => {
    const sheet = book.sheet("Season");
    const formula = "=GYLE.ABV(A1:A3,B1:B3)";
    for (const address of ["C1", "C2", "C3"]) sheet.put(address, formula, 4.7, { anchor: "C1" });
    sheet.put("C4", formula, 4.7).put("C5", formula, 4.7);
    expect((await find(quietly())).map(where)).toEqual(["Season!C1", "Season!C4", "Season!C5"]);
  });

  test("with the names that another formula spills", async () => {
    const sheet = book.sheet("Season");
    sheet.put("D4", "=SORT(G4:G5)", "Glass", { anchor: "D4" }).put("D5", "", "Old one", { anchor: "D4" });
    sheet.put("E4", "=UPPER(G4)", "Float");
    sheet.put("F4", "=GYLE.HYDROMETER(A4:A5,B4:B5,D4#)", 1.05);
    sheet.put("F7", "=GYLE.HYDROMETER(A4,B4,season!$E$4#)", 1.05);
    sheet.put("F8", "=GYLE.HYDROMETER(A4,B4,_xlfn.ANCHORARRAY(D4))", 1.05);
    const found = await find(quietly());
    expect(found.map((f) => [where(f), f.instruments, f.anyInstrument])).toEqual([
      ["Season!F4", ["Glass", "Old one"], false],
      ["Season!F7", ["Float"], false],
      ["Season!F8", ["Glass", "Old one"], false],
    ]);
    const [call] = await calls(found);
    expect(call?.args[2]).toEqual([["Glass"], ["Old one"]]);
    const report = await rename(found, "Old one", "New one", quietly());
    expect(report.failed).toEqual([
      { sheet: "Season", address: "D5", why: expect.stringContaining("works out") as string },
    ]);
  });

  test("an Excel from before spills is not asked about them", async () => {
    book.apiVersion = 1.09;
    book.open().sheet("Season").put("C1", "=GYLE.ABV(A1,B1)", 4.7).put("C2", "=GYLE.ABV(A1,B1)", 4.7);
    expect(await find(quietly())).toHaveLength(2);
  });

  test("a workbook without any is empty, and so is one without cells", async () => {
    book.sheet("Empty");
    expect(await find(quietly())).toEqual([]);
  });
});

describe("50,000 cells", () => {
  beforeEach(() => {
    const sheet = book.sheet("Log");
    for (let row = 1; row <= 10_000; row++) sheet.put(`A${row}`, row);
    sheet.put("E1", 1).put("E10000", "=GYLE.ABV(A1,B1)", 4.7);
  });

  test("are read in pieces of at most 20,000, and progress reaches the end", async () => {
    const progress: (readonly [number, number])[] = [];
    const found = await find({ ...quietly(), onProgress: (done, total) => progress.push([done, total]) });
    expect(found.map(where)).toEqual(["Log!E10000"]);
    expect(progress.map(([done]) => done)).toEqual([0, 20_000, 40_000, 50_000]);
    expect(new Set(progress.map(([, total]) => total))).toEqual(new Set([50_000]));
    expect(book.largestRead.cells).toBe(20_000);
  });

  test("an abort stops after the piece that it falls into, with its reason", async () => {
    const stop = new AbortController();
    const reason = new Error("enough");
    const seen: number[] = [];
    const work: Work = {
      signal: stop.signal,
      onProgress: (done) => {
        seen.push(done);
        if (done === 20_000) stop.abort(reason);
      },
    };
    await expect(find(work)).rejects.toBe(reason);
    expect(seen).toEqual([0, 20_000]);
  });

  test("a piece that is too much for one answer is read in halves", async () => {
    book.queue.before = (sync) => {
      if (sync === 3) throw new ExcelError("ResponsePayloadSizeLimitExceeded");
    };
    const progress: number[] = [];
    const found = await find({ ...quietly(), onProgress: (done) => progress.push(done) });
    expect(found).toHaveLength(1);
    expect(progress).toEqual([0, 10_000, 20_000, 30_000, 40_000, 50_000]);
  });

  test("what Excel reports comes out as a sentence", async () => {
    book.queue.before = (sync) => {
      if (sync === 4) throw new ExcelError("InvalidOperationInCellEditMode");
    };
    await expect(find(quietly())).rejects.toThrow("A cell is being edited. Finish it with Enter or Esc");
  });
});

describe("calculating again", () => {
  const formula = (address: string, more: Partial<OurFormula> = {}): OurFormula => ({
    sheet: "Brew day",
    address,
    formula: "=GYLE.ABV(A1,B1)",
    value: 4.7,
    instruments: [],
    anyInstrument: false,
    ...more,
  });

  test("marks those cells and no others, and calculates once", async () => {
    const sheet = book.sheet("Brew day");
    for (let row = 1; row <= 100; row++) sheet.put(`E${row * 2}`, "=GYLE.ABV(A1,B1)", 4.7);
    const some = Array.from({ length: 100 }, (_, i) => formula(`E${i * 2 + 2}`));
    expect(await recalculate(some, quietly())).toEqual({ done: 100, failed: [] });
    expect(book.dirty).toEqual(some.map(where));
    expect(book.calculations).toEqual(["Recalculate"]);
  });

  test("a sheet that is gone is reported, and the rest is done", async () => {
    book.sheet("Brew day").put("E2", "=GYLE.ABV(A1,B1)", 4.7);
    const report = await recalculate([formula("E2"), formula("E2", { sheet: "Gone" })], quietly());
    expect(report.done).toBe(1);
    expect(report.failed).toEqual([
      { sheet: "Gone", address: "E2", why: expect.stringContaining('no sheet "Gone"') as string },
    ]);
    expect(book.dirty).toEqual(["Brew day!E2"]);
  });

  test("a formula that still shows its error is entered again, except where that is not allowed", async () => {
    vi.useFakeTimers();
    book.sheet("Brew day").put("E2", "=GYLE.ABV(A1,B1)", "#N/A").put("E3", "=GYLE.ABV(A1,B2)", "#N/A");
    const shut = book.sheet("Shut").put("E2", "=GYLE.ABV(A1,B1)", "#VALUE!");
    shut.isProtected = true;
    const done = recalculate(
      [
        formula("E2", { value: "#N/A" }),
        formula("E3", { value: "#N/A", formula: "=GYLE.ABV(A1,B1)" }),
        formula("E2", { sheet: "Shut", value: "#VALUE!" }),
      ],
      quietly(),
    );
    await vi.runAllTimersAsync();
    expect(await done).toEqual({
      done: 2,
      failed: [
        { sheet: "Shut", address: "E2", why: expect.stringContaining('"Shut" is protected') as string },
      ],
    });
    // E3 holds another formula than the one that was found, so somebody is at work there.
    expect(book.written).toEqual([["Brew day!E2", "=GYLE.ABV(A1,B1)"]]);
  });

  test("nothing is calculated after an abort", async () => {
    book.sheet("Brew day").put("E2", "=GYLE.ABV(A1,B1)", 4.7);
    const stop = new AbortController();
    const reason = new Error("enough");
    const work: Work = {
      signal: stop.signal,
      onProgress: () => {
        stop.abort(reason);
      },
    };
    await expect(recalculate([formula("E2")], work)).rejects.toBe(reason);
    expect(book.calculations).toEqual([]);
  });
});

describe("renaming an instrument", () => {
  const text = (sheet: number, address: string): unknown => book.sheets[sheet]?.cells.get(address)?.formula;

  test("in formulas and in the cells that they take it from", async () => {
    season();
    const found = await find(quietly());
    const report = await rename(found, "GLASS", 'New "5"', quietly());
    expect(text(0, "E2")).toBe("=GYLE.HYDROMETER(B2,C2,D2)");
    expect(text(0, "E3")).toBe('=GYLE.HYDROMETER(B2,C2,"New ""5""")');
    expect(text(0, "D2")).toBe('New "5"');
    expect(text(0, "D3")).toBe("Old one");
    expect(report.done).toBe(2);
    expect(report.failed.map(where)).toEqual(["Cellar!A3"]);
    expect(report.failed[0]?.why).toContain("change the formula by hand");
  });

  test("leaves cells that formulas fill, numbers and protected cells, and says so", async () => {
    const sheet = book.sheet("Brew day");
    sheet
      .put("A1", '="Gl"&"ass"', "Glass")
      .put("A2", "Glass", "Glass", { anchor: "A1" })
      .put("A3", "Glass")
      .put("B1", "=GYLE.HYDROMETER(1.05,20,A1:A3)", 1.05, { unlocked: true })
      .put("B2", '=GYLE.HYDROMETER(1.05,20,"Glass")', 1.05, { unlocked: true });
    sheet.isProtected = true;
    const report = await rename(await find(quietly()), "Glass", "7", quietly());
    expect(report.done).toBe(1);
    expect(text(0, "B2")).toBe('=GYLE.HYDROMETER(1.05,20,"7")');
    expect(report.failed.map(where)).toEqual(["Brew day!A1", "Brew day!A2", "Brew day!A3"]);
    expect(report.failed[2]?.why).toContain("protected");
    expect(["A1", "A2", "A3"].map((address) => text(0, address))).toEqual(['="Gl"&"ass"', "Glass", "Glass"]);
  });

  test("a name that Excel could take for a number or date is written as a text", async () => {
    book.sheet("Brew day").put("A1", "Glass").put("B1", "=GYLE.HYDROMETER(1.05,20,A1)", 1.05);
    await rename(await find(quietly()), "Glass", "1046", quietly());
    expect(book.written).toEqual([["Brew day!A1", "'1046"]]);
  });

  test("of a result that spills, the formula is written where it stands", async () => {
    const sheet = book.sheet("Season");
    const formula = '=GYLE.SEASON(A1:A2,B1:B2,C1:C2,D1:D2,"Glass")';
    sheet.put("E1", formula, 1.05, { anchor: "E1" }).put("E2", "", 1.04, { anchor: "E1" });
    expect(await rename(await find(quietly()), "Glass", "Other", quietly())).toEqual({ done: 1, failed: [] });
    expect(text(0, "E1")).toBe('=GYLE.SEASON(A1:A2,B1:B2,C1:C2,D1:D2,"Other")');
    expect(sheet.cells.get("E2")?.formula).toBe("");
  });

  test("one refused write does not keep the others from being written", async () => {
    const sheet = book.sheet("Season");
    for (let row = 1; row <= 9; row++) sheet.put(`A${row}`, '=GYLE.INSTRUMENT("Glass",1)', "SG");
    const found = await find(quietly());
    // An array formula of the old kind: its cells cannot be changed one by one.
    sheet.put("A5", '=GYLE.INSTRUMENT("Glass",1)', "SG", { anchor: "B5" });
    const report = await rename(found, "Glass", "Other", quietly());
    expect(report.done).toBe(8);
    expect(report.failed.map(where)).toEqual(["Season!A5"]);
  });
});

test("a call is read with the cells that it gets, errors among them", async () => {
  book
    .sheet("Brew day")
    .put("A1", 1.046)
    .put("A2", "#DIV/0!")
    .put("B1", 20)
    .put("C1", '=GYLE.HYDROMETER(A1:A3,B1:B3,,"P")', 11)
    .put("C2", "=GYLE.ABV(A1,B1)*2", 1)
    .put("C3", "=GYLE.ABV(A1,OTHER!B1)", 1);
  expect(await calls(await find(quietly()))).toEqual([
    {
      name: "HYDROMETER",
      isWhole: true,
      args: [[[1.046], [{ code: "#DIV/0!" }], [""]], [[20], [""], [""]], undefined, [["P"]]],
    },
    { name: "ABV", isWhole: false, args: [[[1.046]], [[20]]] },
    undefined,
  ]);
});

describe("repairing formulas", () => {
  test("enters them again as a user types them, whatever they had become", async () => {
    book
      .sheet("Brew day")
      .put("E2", "=GYLE.ABV(A1,B1)", "#NAME?")
      .put("E3", "=_xldudf_GYLE_ABV(A1,B1)", "#NAME?")
      .put("E4", "='C:\\lost\\book.xlsx'!_xldudf_GYLE_ABV(A1,_xlfn.XLOOKUP(1,A1:A2,B1:B2))", "#NAME?")
      // Somebody has been at work there since the check.
      .put("E5", "=SUM(A1:B1)", 2);
    const shut = book.sheet("Shut");
    shut.put("E2", "=GYLE.ABV(A1,B1)", "#NAME?");
    shut.isProtected = true;
    const cells = ["E2", "E3", "E4", "E5"].map((address) => ({ sheet: "Brew day", address }));
    const report = await repair(
      [...cells, { sheet: "Shut", address: "E2" }, { sheet: "Gone", address: "A1" }],
      quietly(),
    );
    expect(book.written).toEqual([
      ["Brew day!E2", "=GYLE.ABV(A1,B1)"],
      ["Brew day!E3", "=GYLE.ABV(A1,B1)"],
      ["Brew day!E4", "=GYLE.ABV(A1,XLOOKUP(1,A1:A2,B1:B2))"],
    ]);
    expect(report.done).toBe(3);
    expect(report.failed.map(where)).toEqual(["Gone!A1", "Shut!E2"]);
  });
});

describe("showing a formula", () => {
  test("goes to its sheet and cell", async () => {
    season();
    const [first] = await find(quietly());
    book.active = 1;
    if (first) await show(first);
    expect([book.active, book.shown]).toEqual([0, "Brew day!E2"]);
  });

  test("never unhides a sheet, but says what to do", async () => {
    season();
    const found = await find(quietly());
    const cellar = found.find(({ sheet }) => sheet === "Cellar");
    if (!cellar) throw new Error("nothing on the hidden sheet");
    await expect(show(cellar)).rejects.toThrow("hidden by a macro");
    const [, sheet] = book.sheets;
    if (sheet) sheet.visibility = "Hidden";
    await expect(show(cellar)).rejects.toThrow("choose Unhide");
    book.sheets.pop();
    await expect(show(cellar)).rejects.toThrow('no sheet "Cellar"');
    expect(book.shown).toBeUndefined();
  });
});
