// Calibrating an instrument in a real browser, by keyboard alone.
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { findInstrument } from "../../src/instruments/find.js";
import { chromium } from "../support/tools.js";
import { near } from "../support/near.js";
import { figure, reference } from "../support/reference.js";
import { faults } from "./accessibility.js";
import { choose, press, tabTo, type } from "./keyboard.js";
import { book, filledBook, heading, paneSession, says, stored, type BookStart } from "./pane-session.js";

const focused = (page: Page): Promise<string | undefined> =>
  page.evaluate(
    () => document.activeElement?.closest("fieldset, details")?.querySelector("legend, summary")?.textContent,
  );

/** Cells of a table, row by row. */
const table = (page: Page, name: string): Promise<string[][]> =>
  page
    .getByRole("table", { name })
    .evaluate((found) =>
      Array.from(found.querySelectorAll("tbody tr"), (row) =>
        Array.from(row.children, (cell) => (cell as HTMLElement).innerText),
      ),
    );

describe.skipIf(!chromium.present)("calibrating", () => {
  const openPane = paneSession();

  async function open(instrument: RegExp, start: BookStart = {}): Promise<Page> {
    const page = await openPane({ ...filledBook, ...start });
    await says(page, "Named in 2 formulas");
    await press(page, instrument);
    await press(page, "Calibrate");
    return page;
  }

  test("a slipped scale: what would change is seen before anything is written, applied, and undone", async () => {
    const page = await open(/^Starting glass/);
    expect(await heading(page)).toBe("Calibrate Starting glass");
    expect(await faults(page)).toEqual([]);
    const before = (await book(page)).parts;

    await press(page, "See what would change");
    await says(page, "It appears here as soon as a pair is complete.");
    expect(await focused(page)).toBe("Pair 1");

    await type(page, /^Temperature of all pairs/, "20");
    for (const [i, reading] of ["1.038", "1048", "1.068"].entries()) {
      if (i > 0) await press(page, "Add a pair");
      await page.keyboard.press("Shift+Tab");
      await type(page, /^Reading/, reading);
      await type(page, /^True strength/, ["1.040", "1.05", "1.070"][i] ?? "");
    }
    await says(page, "Every reading is corrected by +0.0020.");
    const fitted = await table(page, "Pairs and what is left over");
    expect(fitted.map((row) => row.slice(0, 4))).toEqual([
      ["1", "1.0380", "1.0400", "1.0400"],
      ["2", "1.0480", "1.0500", "1.0500"],
      ["3", "1.0680", "1.0700", "1.0700"],
    ]);
    expect(fitted.map((row) => row[4])).toEqual(["+0.0000", "+0.0000", "+0.0000"]);
    expect(await faults(page)).toEqual([]);

    await press(page, "See what would change");
    await says(page, "2 cells would change.");
    await says(page, /HYDROMETER: 2 cells, by at most 0\.002/);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("In the workbook");
    const rows = await table(page, "How sure is not known");
    expect(rows.map(([cell]) => cell)).toEqual(["Season C2", "Season C3"]);
    for (const [, now, then] of rows) expect(Number(then) - Number(now)).toBeCloseTo(0.002, 4);
    expect(await faults(page)).toEqual([]);
    expect((await book(page)).parts).toEqual(before);
    expect((await book(page)).log).toEqual([]);

    await press(page, "Apply to the workbook");
    await says(page, "2 formulas calculated again.");
    expect(await heading(page)).toBe("Starting glass");
    expect(findInstrument(await stored(page), "Starting glass")).toMatchObject({
      checks: [{ reading: 1.048, true: 1.05 }],
      lowest: 1.03,
    });
    expect((await book(page)).log).toEqual(["recalculate C2", "recalculate C3"]);
    await press(page, "Undo");
    await says(page, "Undone.");
    expect(findInstrument(await stored(page), "Starting glass")).not.toHaveProperty("checks");
  });

  test("what is wrong is said at its field, and what contradicts between the pairs", async () => {
    const page = await open(/^Starting glass/);
    await type(page, /^Reading/, "1.02");
    await type(page, /^Temperature$/, "twenty");
    await type(page, /^True strength/, "12");
    await press(page, "See what would change");
    await says(page, '"twenty" is not a number. Write it without a unit.');
    await says(page, /^The gravity is 12; allowed are/);
    expect(await faults(page)).toEqual([]);
    await type(page, /^True strength/, "1.022");
    await type(page, /^Temperature of all pairs/, "20");
    await type(page, /^Temperature$/, "");
    await says(page, "The hydrometer reading is 1.02; allowed are 1.03 to 1.1 as SG.");
    await press(page, "See what would change");
    expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).value)).toBe("1.02");
    await page.keyboard.press("Control+A");
    await page.keyboard.insertText("1.04");
    await type(page, /^True strength/, "1.041");
    await press(page, "Add a pair");
    await page.keyboard.insertText("1.04");
    await type(page, /^True strength/, "1.046");
    await says(page, /^Pairs 1 and 2 contradict each other/);
    await choose(page, "What is to be found", "Check");
    await says(page, /^Pairs 1 and 2 contradict each other/);
    await press(page, "Remove pair 2");
    expect(await focused(page)).toBe("Pair 1");
    await says(page, "1 check point along the scale.");
    await press(page, "Back to Starting glass");
    await says(page, "Leave without saving?");
    await press(page, "Leave");
  });

  test("pairs are taken from cells; headings and blanks are skipped, and what is no number is named", async () => {
    const cells = {
      A1: "Logged",
      B1: "Glass",
      A2: 1.06,
      B2: 1.062,
      A4: 1.04,
      B4: 1.041,
      A5: "1.02",
      B5: 1.021,
      A6: 1.01,
      B6: "#N/A",
      A7: 1.012,
      C2: "",
    };
    const page = await open(/^Bobber/, { cells, selected: "A1:B7" });
    await press(page, "Take the selected cells");
    await says(page, "Nothing was taken.");
    const problems = await page.getByRole("alert").getByRole("listitem").allInnerTexts();
    expect(problems).toEqual([
      'A5: The reading is "1.02": text, not a number. Type 1.02 again into a cell that is not formatted as text.',
      "B6: The true strength is an error, #N/A.",
      "B7: The true strength is missing.",
    ]);
    expect(await faults(page)).toEqual([]);
    await page.evaluate(() => {
      Object.assign(window.book.cells, { A5: 1.02, B6: 1.018, B7: 1.012 });
    });
    await press(page, "Take the selected cells");
    await says(page, "5 pairs taken from A1:B7. 1 heading row and 1 blank row skipped.");
    await says(page, /^Pair 4 stands out from the others/);
    expect(
      await page.getByRole("img", { name: "Pairs and calibration" }).getAttribute("aria-describedby"),
    ).toBe("chart-desc");
    expect(await page.locator("#chart-desc").textContent()).toMatch(
      /Farthest from the line is pair 4, by 0\.00\d\d\. Pair 4 stands out\./,
    );
    await page.evaluate(() => (window.book.selected = "A1:C7"));
    await press(page, "Take the selected cells");
    await says(page, "A1:C7 has 3 columns; select 2 (reading, true strength).");
    await press(page, "Add the pairs it has");
    expect(await page.getByRole("group").count()).toBe(7 + 1); // and the details of the sugar solution
    expect(await faults(page)).toEqual([]);
  });

  test("the chart needs no colour, and keeps to the colours that a system forces", async () => {
    const cells = {
      A1: 1.06,
      B1: 1.062,
      A2: 1.04,
      B2: 1.041,
      A3: 1.02,
      B3: 1.021,
      A4: 1.01,
      B4: 1.019,
      A5: 1,
      B5: 1,
    };
    const page = await openPane(
      { ...filledBook, cells, selected: "A1:B5" },
      { forcedColors: "active", colorScheme: "dark" },
    );
    await press(page, /^Bobber/);
    await press(page, "Calibrate");
    await press(page, "Take the selected cells");
    await says(page, /^Pair 4 stands out/);
    const chart = page.getByRole("img", { name: "Pairs and calibration" });
    expect(await chart.locator(".chart-point").count()).toBe(4);
    expect(await chart.locator(".chart-out").count()).toBe(1);
    const strokes = await chart.locator("path").evaluateAll((marks) => {
      const probe = document.body.appendChild(document.createElement("span"));
      probe.style.color = "CanvasText";
      const text = getComputedStyle(probe).color;
      probe.remove();
      return marks.filter((mark) => getComputedStyle(mark).stroke !== text).length;
    });
    expect(strokes).toBe(0);
    expect(await faults(page)).toEqual([]);
  });

  test("a refractometer: its reading on water, then the wort correction factor", async () => {
    const cells = { A1: 10.4, B1: 10, A2: 12.9, B2: 12.5, A3: 16.6, B3: 16 };
    const page = await open(/^Pocket prism/, { cells, selected: "A1:B3" });
    await tabTo(page, "combobox", /^By hydrometer is written as/);
    await page.keyboard.press("ArrowDown");
    await press(page, "Take the selected cells");
    // 10.3 / 10, 12.8 / 12.5 and 16.5 / 16, as it shows 0.1 on water.
    await says(page, "The wort correction factor is 1.030; now it is 1.020.");
    await press(page, "See what would change");
    await says(page, /1 formula cannot be looked at beforehand/);
    await press(page, "Apply to the workbook");
    await page.getByRole("heading", { name: "Pocket prism", level: 1, exact: true }).waitFor();
    expect(findInstrument(await stored(page), "Pocket prism")).toMatchObject({
      wortFactor: 1.03,
      waterReading: 0.1,
    });

    await press(page, "Calibrate");
    await choose(page, "What is to be found", "Reading");
    for (const [i, reading] of ["0,3", "0.2", "0.3"].entries()) {
      if (i > 0) await press(page, "Add a pair");
      await page.keyboard.press("Shift+Tab");
      await type(page, /^Reading/, reading);
    }
    await says(page, "It shows +0.30 °Bx on water, which is taken off every reading.");
    expect(await faults(page)).toEqual([]);
    await press(page, "See what would change");
    await press(page, "Apply to the workbook");
    await page.getByRole("heading", { name: "Pocket prism", level: 1, exact: true }).waitFor();
    expect(findInstrument(await stored(page), "Pocket prism")).toMatchObject({ waterReading: 0.3 });
  });

  // 12 °P is 12 g in 100 g, and a gram in 1,000 g is 0.1 °P: a tenth of a row of NBS Table 114.
  test("a sugar solution is worked out in grams, and becomes a pair", async () => {
    const page = await open(/^Plato spindle/);
    await page.getByText("Weigh a sugar solution").focus();
    await page.keyboard.press("Enter");
    await tabTo(page, "combobox", "Strength is written as");
    await page.keyboard.press("ArrowDown");
    await type(page, "Wanted strength", "12");
    await type(page, /^Made up with water to/, "1000");
    await says(page, "120.0 g of sugar and 880.0 g of water");
    const printed = (brix: number): number =>
      figure(
        reference("plato-sg-nbs114-apparent").find((row) => figure(row, "brix") === brix),
        "apparent_sg_20_20",
      );
    const perGram = ((printed(13) - printed(11)) / 20).toFixed(5);
    await says(page, `One gram of sugar too much raises it by ${perGram}.`);
    expect(await faults(page)).toEqual([]);
    await type(page, /^Sugar really weighed/, "121");
    await says(page, /^That is 1\.0\d{3} \(12\.10 °P\)\.$/);
    await press(page, "Add a pair of this strength");
    await page.keyboard.insertText("12.3");
    await type(page, /^Temperature$/, "20");
    expect(await page.getByRole("textbox", { name: "True strength" }).inputValue()).toBe("12.1");
    await says(page, "Every reading is corrected by −0.20 °P.");
    await press(page, "See what would change");
    await says(page, "No formula uses this instrument yet.");
    await press(page, "Apply to the workbook");
    await says(page, '"Plato spindle" is calibrated.');
    expect(findInstrument(await stored(page), "Plato spindle")).toMatchObject({
      checks: [{ reading: 12.3, true: near(12.1, 3) }],
    });
  });

  test("looking ahead can be stopped; applying is still possible, and refused where someone else was faster", async () => {
    const page = await open(/^Starting glass/);
    await type(page, /^Reading/, "1.04");
    await type(page, /^Temperature$/, "20");
    await type(page, /^True strength/, "1.041");
    await says(page, "Every reading is corrected by +0.0010.");
    await page.evaluate(() => (window.book.findTakes = 5000));
    await press(page, "See what would change");
    await page.getByRole("progressbar", { name: "Looking at what would change" }).waitFor();
    expect(await faults(page)).toEqual([]);
    await press(page, "Stop");
    await says(page, "Not all formulas were looked at.");
    await page.evaluate(() => {
      window.book.findTakes = 0;
      window.book.parts = window.book.parts.map((part) => part.replace('"lowest": 1.03', '"lowest": 1.02'));
    });
    await tabTo(page, "button", "Apply to the workbook");
    await page.keyboard.press("Enter");
    await says(page, 'Someone has just changed "Starting glass". Look at what would change once more.');
    expect(findInstrument(await stored(page), "Starting glass")).not.toHaveProperty("checks");
  });
});
