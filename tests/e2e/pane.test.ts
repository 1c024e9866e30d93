// The pane in a real browser, worked by keyboard alone, around a workbook in memory.
import { existsSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { findInstrument } from "../../src/instruments/find.js";
import { writePart } from "../../src/instruments/part.js";
import { put } from "../../src/instruments/edits.js";
import { instruments } from "../support/instruments.js";
import { chromium } from "../support/tools.js";
import { faults } from "./accessibility.js";
import { built } from "./browser.js";
import { choose, press, tabTo, type } from "./keyboard.js";
import { book, filledBook, heading, paneSession, says, stored } from "./pane-session.js";

declare const Gylesheet: typeof import("../../src/excel/functions.js");

describe.skipIf(!chromium.present)("the pane", () => {
  const open = paneSession();

  test("first use ends with an instrument in the workbook", async () => {
    const page = await open();
    expect(await heading(page)).toBe("What do you measure with?");
    expect(await faults(page)).toEqual([]);
    await press(page, /^Hydrometer, true at 20 °C/);
    expect(await faults(page)).toEqual([]);
    await type(page, /^Name/, "Cellar glass");
    await page.keyboard.press("Enter");
    await says(page, '"Cellar glass" is in this workbook now.');
    expect(findInstrument(await stored(page), "cellar glass")).toMatchObject({
      kind: "hydrometer",
      scale: "SG",
      calibrationTemperature: 20,
      read: "level",
    });
    expect(await heading(page)).toBe("Cellar glass");
    expect(await faults(page)).toEqual([]);
    await press(page, "Back to Instruments");
    expect(await heading(page)).toBe("Instruments");
  });

  test("first use can be skipped", async () => {
    const page = await open();
    await press(page, "Skip for now");
    await says(page, /no instruments yet/);
    expect(await faults(page)).toEqual([]);
    expect((await book(page)).parts).toEqual([]);
  });

  test("a narrow pair becomes two instruments", async () => {
    const page = await open();
    await press(page, /^Narrow pair/);
    await press(page, "Add to workbook");
    await says(page, '"Starting hydrometer" is in this workbook now.');
    await press(page, "Add to workbook");
    await says(page, '"Finishing hydrometer" is in this workbook now.');
    expect((await stored(page)).instruments.map(({ name }) => name)).toEqual([
      "Starting hydrometer",
      "Finishing hydrometer",
    ]);
  });

  test("the list shows kinds, key facts and how many formulas use each", async () => {
    const page = await open(filledBook);
    await says(page, "Named in 2 formulas");
    expect(await page.getByRole("button", { name: /^Starting glass/ }).innerText()).toMatch(
      /hydrometer · SG scale true at 20 °C · graduated 1\.030 to 1\.100[^]*Named in 2 formulas/,
    );
    expect(await faults(page)).toEqual([]);
  });

  test("editing is checked at the field, and re-runs the formulas that name the instrument and no others", async () => {
    const page = await open(filledBook);
    await press(page, /^Starting glass/);
    await press(page, "Edit");
    await type(page, /^True at/, "20,5");
    await type(page, /^Lowest graduation/, "12");
    await type(page, /^Highest graduation/, "high");
    await press(page, "Save");
    await says(page, "Give a number from 0.9 to 1.2.");
    await says(page, '"high" is not a number.');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("field-lowest");
    expect(await faults(page)).toEqual([]);
    await page.keyboard.press("Control+A");
    await page.keyboard.insertText("1020");
    await type(page, /^Highest graduation/, "1.12");
    await page.keyboard.press("Enter");
    await says(page, "2 formulas calculated again.");
    expect(findInstrument(await stored(page), "Starting glass")).toMatchObject({
      calibrationTemperature: 20.5,
      lowest: 1.02,
      highest: 1.12,
    });
    expect((await book(page)).log).toEqual(["recalculate C2", "recalculate C3"]);
    expect(await faults(page)).toEqual([]);
    await press(page, "Undo");
    await says(page, "Undone.");
    expect(findInstrument(await stored(page), "Starting glass")).toMatchObject({ lowest: 1.03 });
  });

  test("what was typed is not lost unasked", async () => {
    const page = await open(filledBook);
    await press(page, /^Old sixty/);
    await press(page, "Edit");
    await type(page, /^True at/, "59");
    await page.keyboard.press("Tab");
    await press(page, "Functions");
    await press(page, "Instruments");
    expect(await page.getByRole("textbox", { name: /^True at/ }).inputValue()).toBe("59");
    await press(page, "Back to Old sixty");
    await says(page, "Leave without saving?");
    expect(await faults(page)).toEqual([]);
    await page.keyboard.press("Escape");
    expect(await heading(page)).toBe("Edit Old sixty");
    await press(page, "Back to Old sixty");
    await press(page, "Leave");
    expect(await heading(page)).toBe("Old sixty");
  });

  test("an instrument is renamed together with the formulas that name it", async () => {
    const page = await open({ ...filledBook, locked: ["C3"] });
    await press(page, /^Starting glass/);
    await press(page, "Rename");
    await type(page, "New name", "pocket PRISM");
    await page.keyboard.press("Enter");
    await says(page, "Another instrument of this workbook has this name.");
    await type(page, "New name", "First glass");
    await page.keyboard.press("Enter");
    await says(page, '2 formulas name "Starting glass"');
    expect(await faults(page)).toEqual([]);
    await press(page, "Rename in formulas too");
    await says(page, /1 formula could not be reached/);
    await page.getByText("Show it").click();
    await says(page, "Season C3: The sheet is protected.");
    expect(await heading(page)).toBe("First glass");
    expect((await book(page)).formulas[0]?.formula).toBe('=GYLE.HYDROMETER(A2,B2,"First glass")');
    expect(findInstrument(await stored(page), "First glass")).toBeDefined();
  });

  test("deleting warns when it is in use, and can be undone", async () => {
    const page = await open(filledBook);
    await press(page, /^Starting glass/);
    await press(page, "Delete");
    await says(page, /named in 2 formulas, which will show #N\/A/);
    expect(await page.evaluate(() => document.activeElement?.textContent.trim())).toBe("Cancel");
    await press(page, "Delete");
    await says(page, '"Starting glass" is deleted.');
    expect(findInstrument(await stored(page), "Starting glass")).toBeUndefined();
    await press(page, "Undo");
    await says(page, "Undone.");
    expect(findInstrument(await stored(page), "Starting glass")).toMatchObject({ lowest: 1.03 });
  });

  test("a duplicate gets a name of its own", async () => {
    const page = await open(filledBook);
    await press(page, /^Bobber/);
    await press(page, "Duplicate");
    await press(page, "Add to workbook");
    await says(page, '"Bobber 2" is in this workbook now.');
    expect(findInstrument(await stored(page), "Bobber 2")).toMatchObject({
      pairs: [
        { reading: 1.01, true: 1.012 },
        { reading: 1.05, true: 1.05 },
      ],
    });
  });

  test("a co-author's later edit stands, is told, and can be taken back", async () => {
    const page = await open(filledBook);
    await press(page, /^Bobber/);
    await press(page, "Edit");
    await type(page, /^Typical scatter/, "0.002");
    await page.keyboard.press("Enter");
    await says(page, '"Bobber" is saved.');
    const theirs = findInstrument(instruments, "Bobber");
    if (!theirs) throw new Error("the fixture lost its bobber");
    const later = put(instruments, { ...theirs, pairs: [] } as typeof theirs, "2099-01-01T00:00:00Z");
    await page.evaluate((part) => {
      window.book.parts = [part];
      window.book.lookAgain();
    }, writePart(later));
    await says(page, 'Someone changed "Bobber" later than you.');
    expect(await faults(page)).toEqual([]);
    expect(findInstrument(await stored(page), "Bobber")).toMatchObject({ pairs: [] });
    await press(page, "Take mine");
    await says(page, '"Bobber" is yours again.');
    expect(findInstrument(await stored(page), "Bobber")).toMatchObject({ scatter: 0.002 });
  });

  test("long work shows its progress and can be stopped", async () => {
    const page = await open({ ...filledBook, findTakes: 3000 });
    await page.getByRole("progressbar", { name: "Looking for formulas" }).waitFor();
    expect(await faults(page)).toEqual([]);
    await press(page, "Stop");
    await page.getByRole("progressbar").waitFor({ state: "detached" });
    await says(page, "Counting formulas …");
  });

  test("a workbook that cannot be read says so, and can be tried again", async () => {
    const page = await open({ ...filledBook, failing: "The workbook did not answer. Try again in a moment" });
    await says(page, "The workbook did not answer. Try again in a moment.");
    expect(await faults(page)).toEqual([]);
    // A cell is calculated meanwhile, and gives up.
    await page.evaluate(() => window.cells["HYDROMETER"]?.([[1.046]], [[27]], [["Starting glass"]]));
    await page.evaluate(() => (window.book.failing = undefined));
    await press(page, "Try again");
    await says(page, "Starting glass");
    await says(page, "3 formulas calculated again.");
  });

  test("instruments of a later version are kept, can be saved, and new ones start beside them", async () => {
    const newer = writePart(instruments).replace('"version": 1', '"version": 2');
    const page = await open({ ...filledBook, parts: [newer] });
    await says(page, "written by a later Gylesheet");
    expect(await faults(page)).toEqual([]);
    await press(page, "Save a copy");
    expect((await book(page)).saved).toEqual([{ name: "unread-instruments.xml", text: newer }]);
    await press(page, "Start new ones beside them");
    await press(page, "Skip for now");
    await says(page, /They are kept as they are/);
    expect((await book(page)).parts[0]).toBe(newer);
  });

  test("functions are found by what one wants to know, tried and inserted", async () => {
    const page = await open({ ...filledBook, selected: "D1" });
    await press(page, "Functions");
    expect(await faults(page)).toEqual([]);
    await type(page, "What do you want to know?", "true gravity hydrometer");
    await press(page, /^What is the true gravity behind this hydrometer reading/);
    await type(page, "reading", "A2:A3");
    await type(page, "temperature", "nowhere");
    await says(page, '"nowhere" is neither a number nor cells such as B2 or B2:B9.');
    await page.keyboard.press("Control+A");
    await page.keyboard.insertText("B2:B3");
    const [[cell = 0] = []] = await page.evaluate(() =>
      Gylesheet.evaluate("HYDROMETER", [[[1.046]], [[27]]], { version: 1, instruments: [] }),
    );
    await says(page, Number(cell).toPrecision(7));
    await choose(page, /^instrument/, "Starting");
    await says(page, '=GYLE.HYDROMETER(A2:A3,B2:B3,"Starting glass")');
    expect(await faults(page)).toEqual([]);
    await press(page, "Insert into the selected cell");
    await says(page, "Overwrite D1?");
    await page.keyboard.press("Enter");
    expect((await book(page)).log).toEqual([]);
    await press(page, "Insert into the selected cell");
    await press(page, "Overwrite");
    await says(page, "It is in D1.");
    expect((await book(page)).log).toEqual(['insert D1 =GYLE.HYDROMETER(A2:A3,B2:B3,"Starting glass")']);
  });

  test("a field takes the selected cells, and a missing one is asked for", async () => {
    const page = await open({ ...filledBook, selected: "A3" });
    await press(page, "Functions");
    await press(page, /^How strong/);
    await press(page, "Insert into the selected cell");
    await says(page, "This is needed.");
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("argument-0");
    await press(page, "Use selected cells for original");
    expect(await page.locator("#argument-0").inputValue()).toBe("A3");
    await tabTo(page, "textbox", /^final/);
    await page.keyboard.insertText("1.2");
    await says(page, /as SG allowed are/);
  });

  test("about says where instruments are, and what to be careful about", async () => {
    const page = await open(filledBook);
    await press(page, "About");
    await says(page, "Sugar left in a bottle can burst it.");
    expect(await faults(page)).toEqual([]);
    const links = await page
      .locator("main a")
      .evaluateAll((all) => all.map((a) => (a as HTMLAnchorElement).href));
    expect(links.length).toBeGreaterThan(4);
    for (const to of links) expect(existsSync(built(`help/${to.split("/").at(-1) ?? ""}`))).toBe(true);
  });
});
