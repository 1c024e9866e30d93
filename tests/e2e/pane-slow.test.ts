// The pane on a slow workbook, where the user is faster than it.
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { findInstrument } from "../../src/instruments/find.js";
import { writePart } from "../../src/instruments/part.js";
import { put, takeOut } from "../../src/instruments/edits.js";
import { instruments } from "../support/instruments.js";
import { chromium } from "../support/tools.js";
import { faults } from "./accessibility.js";
import type { Delays } from "./delays.js";
import { press, type } from "./keyboard.js";
import { book, filledBook, heading, paneSession, says, stored } from "./pane-session.js";

/** Nothing takes its time but this. */
const slowOnlyAt = (of: Delays["of"]): Delays => ({ seed: 1, most: 0, ...(of ? { of } : {}) });

const saved = (page: Page, name: string): Promise<void> =>
  page.waitForFunction((n) => window.book.parts.at(-1)?.includes(n), name).then(() => undefined);

describe.skipIf(!chromium.present)("the pane on a slow workbook", () => {
  const open = paneSession();

  const shown = async (page: Page): Promise<unknown[]> =>
    (await book(page)).formulas.slice(0, 2).map(({ value }) => value);

  test("an undo while cells are calculated again leaves them as they were", async () => {
    const page = await open({ ...filledBook, delays: slowOnlyAt({ recalculate: 700 }) });
    await press(page, /^Starting glass/);
    await press(page, "Edit");
    await type(page, /^True at/, "20.001");
    await press(page, "Save");
    await says(page, "2 formulas calculated again.");
    const before = await shown(page);
    await press(page, "Edit");
    await type(page, /^True at/, "15");
    await press(page, "Save");
    await says(page, '"Starting glass" is saved.');
    await page.waitForFunction((was) => window.book.formulas[0]?.value !== was, before[0]);
    await press(page, "Undo");
    await says(page, "Undone.");
    await page.getByRole("progressbar").waitFor({ state: "detached" });
    await page.waitForFunction((was) => window.book.formulas[1]?.value === was, before[1]);
    expect(await shown(page)).toEqual(before);
    expect(findInstrument(await stored(page), "Starting glass")).toMatchObject({
      calibrationTemperature: 20.001,
    });
  });

  test("a draft begun while another is saved is neither lost nor mixed up with it", async () => {
    const page = await open({ ...filledBook, delays: slowOnlyAt({ write: 1500 }) });
    await press(page, "Add an instrument");
    await press(page, /^Hydrometer, true at 20 °C/);
    await type(page, /^Name/, "First glass");
    await page.keyboard.press("Enter");
    await says(page, "Saving …");
    await press(page, "Back to Add an instrument");
    await press(page, /^Hydrometer, true at 20 °C/);
    await type(page, /^Name/, "Second glass");
    await type(page, /^True at/, "17");
    await saved(page, "First glass");
    await says(page, '"First glass" is in this workbook now.');
    expect(await page.getByRole("textbox", { name: /^Name/ }).inputValue()).toBe("Second glass");
    await page.keyboard.press("Enter");
    await says(page, '"Second glass" is in this workbook now.');
    expect(await heading(page)).toBe("Second glass");
    const set = await stored(page);
    expect(findInstrument(set, "First glass")).toMatchObject({ calibrationTemperature: 20 });
    expect(findInstrument(set, "Second glass")).toMatchObject({ calibrationTemperature: 17 });
  });

  test("a second one of the same name does not take the first one's place", async () => {
    const page = await open({ ...filledBook, delays: slowOnlyAt({ write: 600 }) });
    for (const at of ["20", "17"]) {
      await press(page, "Add an instrument");
      await press(page, /^Hydrometer, true at 20 °C/);
      await type(page, /^Name/, "Same glass");
      await type(page, /^True at/, at);
      await page.keyboard.press("Enter");
      if (at === "17") break;
      await press(page, "Back to Add an instrument");
      await press(page, "Back to Instruments");
    }
    await says(page, /Another instrument of this workbook (is called "Same glass" now|has this name)/);
    expect(await page.getByRole("textbox", { name: /^True at/ }).inputValue()).toBe("17");
    expect(findInstrument(await stored(page), "Same glass")).toMatchObject({ calibrationTemperature: 20 });
  });

  test("a button pressed twice does its work once", async () => {
    const page = await open({ delays: slowOnlyAt({ write: 400 }) });
    await press(page, /^Narrow pair/);
    const add = page.getByRole("button", { name: "Add to workbook" });
    await add.dblclick();
    await says(page, '"Starting hydrometer" is in this workbook now.');
    expect(await page.getByRole("textbox", { name: /^Name/ }).inputValue()).toBe("Finishing hydrometer");
    await press(page, "Add to workbook");
    await says(page, '"Finishing hydrometer" is in this workbook now.');
    await press(page, "Back to Instruments");
    expect(await heading(page)).toBe("Instruments");
  });

  test("renaming reaches a formula that was typed meanwhile, and its undo brings all of it back", async () => {
    const page = await open({ ...filledBook, delays: slowOnlyAt({ rename: 200 }) });
    await says(page, "Named in 2 formulas");
    await press(page, /^Starting glass/);
    await page.evaluate(() => {
      window.book.type("C4", '=GYLE.HYDROMETER(A2,B2,"Starting glass")');
    });
    await press(page, "Rename");
    await type(page, "New name", "First glass");
    await page.keyboard.press("Enter");
    await says(page, '3 formulas name "Starting glass"');
    await press(page, "Rename in formulas too");
    await says(page, '"Starting glass" is now "First glass". 3 formulas rewritten.');
    expect(await heading(page)).toBe("First glass");
    expect(JSON.stringify((await book(page)).formulas)).not.toMatch(/starting glass/i);
    await press(page, "Undo");
    await says(page, "Undone. 3 formulas rewritten.");
    expect(await heading(page)).toBe("Starting glass");
    const { formulas } = await book(page);
    expect(formulas.filter(({ formula }) => formula.includes('"Starting glass"'))).toHaveLength(3);
    expect(formulas.every(({ value }) => typeof value === "number")).toBe(true);
  });

  test("all edits that a co-author overrules are told, and each can be taken back", async () => {
    const page = await open({ ...filledBook, delays: { seed: 3, most: 40 } });
    for (const [name, temperature] of [
      ["Starting glass", "21"],
      ["Finishing glass", "22"],
    ] as const) {
      await press(page, new RegExp(`^${name}`));
      await press(page, "Edit");
      await type(page, /^True at/, temperature);
      await page.keyboard.press("Enter");
      await says(page, `"${name}" is saved.`);
      await press(page, "Back to Instruments");
    }
    const later = instruments.instruments
      .filter(({ name }) => /glass$/.test(name))
      .reduce((set, profile) => put(set, profile, "2099-01-01T00:00:00Z"), instruments);
    await page.evaluate((part) => {
      window.book.parts = [part];
      window.book.lookAgain();
    }, writePart(later));
    await says(page, "Others changed 2 instruments later than you.");
    await says(page, 'Someone changed "Starting glass" later than you.');
    await says(page, 'Someone changed "Finishing glass" later than you.');
    expect(await faults(page)).toEqual([]);
    await press(page, /^Take mine of Starting glass/);
    await says(page, '"Starting glass" is yours again.');
    expect(findInstrument(await stored(page), "Starting glass")).toMatchObject({
      calibrationTemperature: 21,
    });
    await press(page, "Take mine");
    await says(page, '"Finishing glass" is yours again.');
    expect(await page.getByText(/later than you/).count()).toBe(0);
  });

  test("a number whose instrument a co-author has deleted is kept, told, and given up only when asked", async () => {
    const page = await open(filledBook);
    await says(page, "Named in 2 formulas");
    await page.evaluate(
      (part) => {
        window.book.parts = [part];
        window.book.lookAgain();
      },
      writePart(takeOut(instruments, "Starting glass", "2099-01-01T00:00:00Z")),
    );
    await says(page, '2 formulas need "Starting glass", which is not in this workbook.');
    expect(await faults(page)).toEqual([]);
    expect(await shown(page)).toEqual([1.05, 1.05]);
    await press(page, "Workbook");
    await press(page, /^Calculate everything again/);
    await press(page, "Calculate again");
    await says(page, "Kept: an instrument is missing: 2 cells");
    expect(await faults(page)).toEqual([]);
    expect(await shown(page)).toEqual([1.05, 1.05]);
    await press(page, "Recalculate them all the same");
    await page.waitForFunction(() => window.book.formulas[1]?.value === "#N/A");
    expect(await shown(page)).toEqual(["#N/A", "#N/A"]);
  });

  test("a workbook that has lost its instruments says so before anything is calculated", async () => {
    const page = await open({ ...filledBook, parts: [] });
    await says(
      page,
      /^3 formulas need "Starting glass" and "Pocket prism", which are not in this workbook\./,
    );
    await press(page, /^Hydrometer, true at 20 °C/);
    await type(page, /^Name/, "Starting glass");
    await page.keyboard.press("Enter");
    await says(page, "2 formulas calculated again.");
    await says(page, /^1 formula needs "Pocket prism", which is not in this workbook\./);
    expect((await shown(page)).every((value) => typeof value === "number")).toBe(true);
  });
});
