// The desk around the season that ships with it: the same values as the command, live cells, the pane beside them.
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { recalculate } from "../../src/engine/recalculate.js";
import { callsOurs } from "../../src/formulas/formula-text.js";
import { cellAddress } from "../../src/cells/a1.js";
import { partNamespace } from "../../src/instruments/part.js";
import { storedInstruments } from "../../src/instruments/stored.js";
import { loadFunctions } from "../support/functions-bundle.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { season } from "../recalc/command.js";
import { chromium } from "../support/tools.js";
import { built } from "./browser.js";
import {
  becomes,
  cells,
  deskSession,
  focusSheet,
  goTo,
  hover,
  isOpen,
  open,
  saved,
  type,
} from "./desk-session.js";

/** Notes every call that a cell makes of one of our functions. */
const notingCalls = `
  window.callsMade = [];
  let host;
  Object.defineProperty(window, "CustomFunctions", {
    get: () => host,
    set: (given) => {
      const noted = (id, implementation) => given.associate(id, (...args) => {
        window.callsMade.push({ id, args });
        return implementation(...args);
      });
      host = { ...given, associate: noted };
    },
  });`;

declare global {
  interface Window {
    callsMade: { id: string; args: unknown[] }[];
    /** How often a pane has asked for the formula behind the selected cell. */
    timesAsked: number;
  }
}

const { functions, useInstruments } = loadFunctions(built("").pathname);

/** What the command makes of a workbook's cells with our formulas, by address. */
async function byCommand(bytes: Uint8Array): Promise<Map<string, unknown>> {
  const { model, ...workbook } = await openWorkbook(bytes).then((book) => ({
    model: book.model,
    parts: book.customXml(partNamespace).map(({ xml }) => xml),
  }));
  const { set } = storedInstruments(workbook.parts);
  if (set) useInstruments(set);
  const { changes, notes } = recalculate(model, functions);
  expect(notes).toEqual([]);
  const values = new Map<string, unknown>();
  for (const { name, cells: all } of model.sheets)
    for (const { row, column, value, formula } of all)
      if (formula && callsOurs(formula.text, functions))
        values.set(`${name} ${cellAddress(row, column)}`, value);
  for (const { sheet, row, column, value } of changes) {
    const key = `${sheet} ${cellAddress(row, column)}`;
    if (values.has(key)) values.set(key, value);
  }
  return values;
}

/** All cells with our formulas, as the pane finds them. */
const found = (page: Page) =>
  page.evaluate(() =>
    window.gylesheetHost.formulas.find({ onProgress: () => undefined, signal: new AbortController().signal }),
  );

describe.skipIf(!chromium.present)("the desk", () => {
  const desk = deskSession();
  let page: Page;

  beforeAll(async () => {
    page = await desk("/?file=season.xlsx", notingCalls);
    page.on("dialog", (dialog) => void dialog.accept());
    await isOpen(page, "season.xlsx");
  });

  test("shows what the command calculates, in every cell with our formulas", async () => {
    const here = await found(page);
    const expected = await byCommand(season());
    expect(expected.size).toBeGreaterThan(80);
    expect(new Map(here.map(({ sheet, address, value }) => [`${sheet} ${address}`, value]))).toEqual(
      expected,
    );
  });

  test("saves a workbook that nobody changed as it was, to the byte", async () => {
    expect(await saved(page)).toEqual(season());
  });

  test("a reading changes, and its row follows", async () => {
    const [before = []] = await cells(page, "Season!J6:N6");
    await type(page, "Season", "D6", "1.040");
    const [after = []] = await becomes(page, "Season!J6:N6", ([row]) => row?.[0] !== before[0]);
    for (const column of [0, 2, 3, 4]) expect(after[column]).toBeGreaterThan(Number(before[column]));
    expect(after[1]).toBe(before[1]);
    await page.getByText("not saved", { exact: true }).waitFor();
  });

  test("what was done can be undone, and done again", async () => {
    const after = await cells(page, "Season!J6:N6");
    await focusSheet(page);
    await page.keyboard.press("Control+z");
    const before = await becomes(page, "Season!J6:N6", ([row]) => row?.[4] !== after[0]?.[4]);
    expect(await cells(page, "Season!D6")).toEqual([[1.038]]);
    await page.keyboard.press("Control+y");
    const again = await becomes(page, "Season!J6:N6", ([row]) => row?.[4] !== before[0]?.[4]);
    expect(again).toEqual(after);
  });

  test("a formula that is copied goes by the cells beside where it is put", async () => {
    await goTo(page, "Season", "J10");
    await focusSheet(page);
    await page.keyboard.press("Control+c");
    // The clipboard is filled in its own time.
    await page.waitForTimeout(1000);
    await goTo(page, "Season", "P10");
    await focusSheet(page);
    await page.keyboard.press("Control+v");
    await becomes(page, "Season!P10", ([row]) => row?.[0] !== "");
    const pasted = (await found(page)).find(({ address }) => address === "P10");
    expect(pasted?.formula).toBe('=IF(J10="","",GYLE.HYDROMETER(J10,K10,L10))');
    await page.keyboard.press("Control+z");
    await becomes(page, "Season!P10", ([row]) => row?.[0] === "");
  });

  test("offers our functions as one types, with what they are for", async () => {
    await goTo(page, "Season", "P6");
    await focusSheet(page);
    await page.keyboard.type("=GYLE.ATTENUATION.A");
    await page
      .getByText(/Apparent attenuation/)
      .first()
      .waitFor();
    await page.keyboard.type("PPARENT(");
    await page.getByText("Original gravity", { exact: false }).first().waitFor();
    await page.keyboard.press("Escape");
    await page.keyboard.press("Escape");
    expect(await cells(page, "Season!P6")).toEqual([[""]]);
  });

  test("takes what is typed, not a name that was offered before the last keys", async () => {
    await goTo(page, "Season", "P6");
    await focusSheet(page);
    await page.keyboard.type("=D6*E");
    await page.getByText("EFFECT", { exact: true }).waitFor();
    await page.keyboard.type("6");
    await page.keyboard.press("Enter");
    await becomes(page, "Season!P6", ([row]) => row?.[0] !== "");
    const [[reading, temperature] = []] = await cells(page, "Season!D6:E6");
    const [[product] = []] = await cells(page, "Season!P6");
    expect(product).toBeCloseTo((reading as number) * (temperature as number), 9);
    await page.keyboard.press("Control+z");
    await becomes(page, "Season!P6", ([row]) => row?.[0] === "");
  });

  test("says what our functions have to say of an error, at its cell and to the pointer", async () => {
    await type(page, "Season", "D7", "n/a");
    await becomes(page, "Season!J7", ([row]) => row?.[0] === "#VALUE!");
    await goTo(page, "Season", "J7");
    const sentence = /The reading is "n\/a": text, not a number/;
    await page.locator("#status").getByText(sentence).waitFor();
    await goTo(page, "Season", "J8");
    await page
      .locator("#status")
      .getByText(/functions begin with GYLE/)
      .waitFor();
    await hover(page, 7, sentence);
  });

  test("the pane explains the selected cell and goes along to the next", async () => {
    const pane = page.frameLocator("#pane");
    await goTo(page, "Season", "J7");
    await pane.getByRole("button", { name: "Cell", exact: true }).click();
    await pane.getByText(/The reading is "n\/a": text, not a number/).waitFor();
    await goTo(page, "Season", "J8");
    await pane.getByText("reading: 1.048").waitFor();
    await pane.getByText("ISO 1768:1975").waitFor();
    await type(page, "Season", "E8", "41");
    await goTo(page, "Season", "J8");
    await pane.getByText("temperature: 41").waitFor();
    await pane.getByText(/The sample was at 41 °C\. Let it cool/).waitFor();
    await type(page, "Season", "E8", "20.4");
    await pane.getByRole("button", { name: "Instruments", exact: true }).click();
  });

  test("calculating everything again tells how far it is, and can be stopped on the way", async () => {
    const [whole, stopped] = await page.evaluate(async () => {
      const { formulas } = window.gylesheetHost;
      const run = async (stopsAfter: number) => {
        const stop = new AbortController();
        const steps: (readonly [number, number])[] = [];
        const all = await formulas.find({ signal: stop.signal, onProgress: () => undefined });
        const onProgress = (done: number, total: number): void => {
          steps.push([done, total]);
          if (done > stopsAfter) stop.abort(new Error("Stopped."));
        };
        const outcome = await formulas.recalculate(all, { signal: stop.signal, onProgress }).catch(String);
        return { all: all.length, steps, outcome };
      };
      return [await run(Infinity), await run(0)] as const;
    });
    const { all, steps } = whole;
    expect(whole.outcome).toEqual({ done: all, failed: [] });
    expect(steps.length).toBeGreaterThan(2);
    expect(steps.every(([done, total], i) => total === all && done > (steps[i - 1]?.[0] ?? -1))).toBe(true);
    expect(stopped).toEqual({ all, steps: steps.slice(0, 2), outcome: "Error: Stopped." });
  });

  test("an instrument changed in the pane has the formulas calculated that name it, and no others", async () => {
    const all = await found(page);
    const naming = all.filter(({ instruments }) => instruments.includes("Bobber"));
    expect(naming.length).toBeGreaterThan(5);
    const before = new Map(all.map(({ sheet, address, value }) => [`${sheet} ${address}`, value]));
    await page.evaluate(() => (window.callsMade = []));
    const pane = page.frameLocator("#pane");
    await pane.getByRole("button", { name: /^Bobber/ }).click();
    await pane.getByRole("button", { name: "Edit", exact: true }).click();
    await pane.getByLabel(/^Typical scatter/).fill("0.002");
    await pane.getByRole("button", { name: "Save", exact: true }).click();
    await pane.getByText(`${naming.length} formulas calculated again.`).waitFor();
    const called = await page.evaluate(() =>
      window.callsMade.map(({ id, args }) => `${id} ${JSON.stringify(args)}`),
    );
    const own = await page.evaluate((formulas) => window.gylesheetHost.formulas.calls(formulas), naming);
    expect(own).not.toContain(undefined);
    expect(called).toHaveLength(naming.length);
    expect(new Set(called.map((call) => call.split(" ")[0]))).toEqual(new Set(own.map((call) => call?.name)));
    expect(called.every((call) => call.includes('"Bobber"'))).toBe(true);
    const after = new Map(
      (await found(page)).map(({ sheet, address, value }) => [`${sheet} ${address}`, value]),
    );
    for (const [key, value] of before)
      if (!naming.some(({ sheet, address }) => key === `${sheet} ${address}`))
        expect([key, after.get(key)]).toEqual([key, value]);
  });

  test("what it saves is what the command would calculate, instruments included", async () => {
    const bytes = await saved(page);
    const here = await found(page);
    const expected = await byCommand(bytes);
    const shown = (value: unknown) =>
      typeof value === "object" && value !== null && "error" in value ? value.error : value;
    expect(new Map(here.map(({ sheet, address, value }) => [`${sheet} ${address}`, value]))).toEqual(
      new Map([...expected].map(([key, value]) => [key, shown(value)])),
    );
    const parts = (await openWorkbook(bytes)).customXml(partNamespace);
    expect(parts).toHaveLength(1);
    const bobber = storedInstruments(parts.map(({ xml }) => xml)).set?.instruments.find(
      ({ name }) => name === "Bobber",
    );
    expect(bobber).toMatchObject({ scatter: 0.002 });
  });

  test("where there is no room the pane folds away, and F6 finds it only while it shows", async () => {
    await page.setViewportSize({ width: 640, height: 800 });
    const pane = page.locator("#side");
    await pane.waitFor({ state: "hidden" });
    await page.getByRole("button", { name: "Show pane" }).click();
    await pane.waitFor({ state: "visible" });
    await page.setViewportSize({ width: 1280, height: 800 });
    await pane.waitFor({ state: "visible" });
    await focusSheet(page);
    const inside = () => page.evaluate(() => document.activeElement?.id ?? "");
    await page.keyboard.press("F6");
    expect(await inside()).toBe("pane");
    await page.getByRole("button", { name: "Hide pane" }).press("Enter");
    await focusSheet(page);
    await page.keyboard.press("F6");
    expect(await inside()).not.toBe("pane");
    await page.getByRole("button", { name: "Show pane" }).press("Enter");
  });

  test("work that was not saved is offered again after the page was left, and goes on", async () => {
    const [before = []] = await cells(page, "Season!J8:N8");
    await type(page, "Season", "D8", "1.050");
    const [result] = await becomes(page, "Season!J8:N8", ([row]) => row?.[4] !== before[4]);
    await page.waitForTimeout(1500);
    await page.goto(new URL("/", page.url()).href);
    await page.getByText(/season.xlsx was changed on .* and not saved/).waitFor();
    await page.getByRole("button", { name: "Go on with it" }).click();
    await isOpen(page, "season.xlsx");
    await page.getByText("not saved", { exact: true }).waitFor();
    expect(await cells(page, "Season!J8:N8")).toEqual([result]);
  });

  test("asks before it gives changes up", async () => {
    await open(page, "other.xlsx", season());
    await page.getByText("season.xlsx has changes that are not saved.").waitFor();
    await page.getByRole("button", { name: "Cancel" }).click();
    await isOpen(page, "season.xlsx");
    expect(await cells(page, "Season!D8")).toEqual([[1.05]]);
  });

  test("a pane whose workbook is not open any more does not follow the selection", async () => {
    const asked = (): Promise<number> => page.evaluate(() => window.timesAsked);
    const cell = page.frameLocator("#pane").getByRole("button", { name: "Cell", exact: true });
    await cell.click();
    await page.evaluate(() => {
      const { selection } = window.gylesheetHost;
      const { formula } = selection;
      window.timesAsked = 0;
      Object.assign(selection, {
        formula: () => {
          window.timesAsked += 1;
          return formula();
        },
      });
    });
    await goTo(page, "Season", "J9");
    await expect.poll(asked).toBeGreaterThan(0);
    await type(page, "Season", "E8", "20.5");
    await page.getByText("not saved", { exact: true }).waitFor();
    await open(page, "other.xlsx", season());
    await page.getByRole("button", { name: "Give the changes up" }).click();
    await isOpen(page, "other.xlsx");
    await cell.click();
    const before = await asked();
    await goTo(page, "Season", "J8");
    await page.frameLocator("#pane").getByText("reading: 1.048").waitFor();
    expect(await asked()).toBe(before);
  });

  afterAll(async () => {
    await page.close();
  });
});
