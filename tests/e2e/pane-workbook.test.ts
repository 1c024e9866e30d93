// The pane does what concerns the workbook as a whole.
import type { Finding } from "../../src/check/finding.js";
import { parse } from "csv-parse/sync";
import { describe, expect, test } from "vitest";
import { chromium } from "../support/tools.js";
import { faults } from "./accessibility.js";
import { press, type } from "./keyboard.js";
import { book, filledBook, heading, paneSession, says } from "./pane-session.js";

describe.skipIf(!chromium.present)("the whole workbook", () => {
  const session = paneSession();

  test("is calculated again, and what changed can be looked at, gone to and saved", async () => {
    const page = await session({ ...filledBook, locked: ["C3"] });
    await press(page, "Workbook");
    expect(await heading(page)).toBe("This workbook");
    expect(await faults(page)).toEqual([]);
    await press(page, /^Calculate everything again/);
    await press(page, "Calculate again");
    await says(page, /3 formulas calculated again\. 1 cell changed\./);
    expect((await book(page)).log).toEqual(["recalculate C2", "recalculate E2", "recalculate F2"]);
    // C3 stands on a protected sheet, and goes on showing what it did.
    await says(page, /Could not be reached: 1 cell/);
    await says(page, /Still showing something else than the function gives: 1 cell/);
    expect(await faults(page)).toEqual([]);
    await press(page, "Season C2");
    expect((await book(page)).log.at(-1)).toBe("show C2");
    await page.getByText("Could not be reached: 1 cell").click();
    await press(page, "Season C3");
    expect((await book(page)).log.at(-1)).toBe("show C3");
    await press(page, "Save as a table (.csv)");
    const [saved] = (await book(page)).saved;
    expect(saved?.name).toBe("what-changed.csv");
    const [, row] = parse(saved?.text ?? "");
    // A reading of 1.046 in wort of 27 °C stands for a little more; the cell showed 1.05.
    expect(row?.slice(0, 4)).toEqual(["Season", "C2", "HYDROMETER", "1.05"]);
    expect(Number(row?.[4])).toBeCloseTo(1.0478, 3);
  });

  test("shows what another instrument has done to its cells", async () => {
    const page = await session(filledBook);
    await press(page, /^Starting glass/);
    await press(page, "Edit");
    await type(page, /^True at/, "15");
    await press(page, "Save");
    await says(page, "2 formulas calculated again.");
    await press(page, "What changed");
    await page.getByRole("heading", { level: 1, name: "What changed" }).waitFor();
    await says(page, "2 cells changed.");
    expect(await page.getByRole("table").count()).toBe(1);
    expect(await faults(page)).toEqual([]);
  });

  test("is handed over in three ways, with what did not go as meant", async () => {
    const page = await session({ ...filledBook, findTakes: 2000 });
    await press(page, "Workbook");
    await press(page, /^Hand over/);
    expect(await faults(page)).toEqual([]);
    await press(page, /^Live without the add-in/);
    await says(page, "The copy is on the shelf.");
    await says(page, /3 of 4 formulas go on calculating/);
    expect((await book(page)).log).toEqual(["handed over live"]);
    await page.getByText("Values, not live: 1 cell").click();
    await says(page, /it takes a whole range at once/);
    expect(await faults(page)).toEqual([]);
    await press(page, /^As values/);
    await page.getByRole("status").getByText("Making the copy").waitFor();
    await press(page, "Stop");
    await says(page, "Stopped.");
    expect((await book(page)).log).toEqual(["handed over live"]);
  });

  test("that cannot be handed over says why", async () => {
    const page = await session(filledBook);
    await page.evaluate(() => {
      window.book.failing = "This workbook has a circular reference: Log!A1 → Log!A1.";
    });
    await press(page, "Workbook");
    await press(page, /^Hand over/);
    await press(page, /^As values/);
    await says(page, "This workbook has a circular reference: Log!A1 → Log!A1.");
  });

  test("is checked: what is found is led to, and what shows #NAME? is repaired", async () => {
    const found = { severity: "fault", sheet: "Season", count: 1 } as const;
    const findings: Finding[] = [
      { ...found, kind: "unbound", cells: ["C2", "C3"], says: "The spreadsheet program shows #NAME? here." },
      { ...found, kind: "text-number", cells: ["A2:A3"], says: 'Text, not a number: "1,046".' },
      {
        kind: "unused-instrument",
        severity: "note",
        cells: [],
        count: 0,
        says: "Nothing names it.",
      },
    ];
    const page = await session({ ...filledBook, findings });
    await press(page, "Workbook");
    await press(page, /^Check the workbook/);
    await press(page, "Check");
    await page.getByRole("heading", { name: "3 found" }).waitFor();
    await says(page, /Season: 4 formulas,\s+1 in error/);
    await page.getByText(/Season: 4 formulas/).press("Enter");
    await page
      .getByRole("list", { name: "Functions in Season" })
      .getByRole("button", { name: "Season C2:C3" })
      .press("Enter");
    expect((await book(page)).log.at(-1)).toBe("show C2");
    expect(await faults(page)).toEqual([]);
    await press(page, "Season A2:A3");
    expect((await book(page)).log.at(-1)).toBe("show A2");
    await press(page, "Repair what shows #NAME?: 2 formulas");
    await page.getByRole("heading", { name: "2 found" }).waitFor();
    await says(page, "1 formula written anew. 1 formula could not be reached and may show old results.");
    expect((await book(page)).log).toContain("repair C2,C3");
    expect(await page.getByRole("button", { name: /^Repair/ }).count()).toBe(0);
  });
});
