// The pane explains the selected cell.
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { SelectedFormula } from "../../src/pane/ports/selection-port.js";
import { chromium } from "../support/tools.js";
import { faults } from "./accessibility.js";
import { press } from "./keyboard.js";
import { filledBook, heading, paneSession, says } from "./pane-session.js";

const hydrometer = (reading: unknown, temperature: number): SelectedFormula => ({
  sheet: "Season",
  address: "C2",
  formula: '=GYLE.HYDROMETER(A2,B2,"Finishing glass")',
  value: 1.0112,
  row: 0,
  column: 0,
  calls: [{ name: "HYDROMETER", args: [[[reading]], [[temperature]], [["Finishing glass"]]], isWhole: true }],
});

/** The ends of the smooth line, read off the picture by its scale as one does with a ruler. */
function firstAndLastGravity(picture: Element): string[] {
  const scale = [...picture.querySelectorAll("text[text-anchor=end]")].map((text) => ({
    y: Number(text.getAttribute("y")) - 4,
    gravity: Number(text.textContent),
  }));
  const [a, b] = [scale[0], scale.at(-1)];
  const places = picture.querySelector(".chart-line")?.getAttribute("d")?.split(/[ML]/).filter(Boolean) ?? [];
  return [places[0], places.at(-1)].map((place) => {
    const y = Number(place?.split(" ")[1]);
    if (!a || !b || a === b) return "no scale";
    return (a.gravity + ((y - a.y) / (b.y - a.y)) * (b.gravity - a.gravity)).toFixed(3);
  });
}

describe.skipIf(!chromium.present)("the selected cell", () => {
  const session = paneSession();
  const select = (page: Page, formula: SelectedFormula | undefined): Promise<void> =>
    page.evaluate((found) => {
      window.book.selectedFormula = found;
      window.book.lookAtCell();
    }, formula);
  const steps = (page: Page): Promise<string[]> =>
    page.getByRole("list", { name: "Steps" }).getByRole("listitem").allInnerTexts();

  test("tells its steps with their sources, its instrument, and what to look at twice", async () => {
    const page = await session({ ...filledBook, selectedFormula: hydrometer(1.01, 38) });
    await press(page, "Cell");
    await says(page, /The sample was at 38 °C\. Let it cool/);
    expect(await heading(page)).toBe("This cell");
    await says(page, /How sure it is cannot be said\. The profile of "Finishing glass" has neither/);
    const told = await steps(page);
    expect(told[0]).toMatch(/^reading at the level surface 1\.01100\s+profile of the instrument$/);
    expect(told.some((line) => line.includes("ISO 1768:1975"))).toBe(true);
    expect(told.at(-1)).toMatch(/^gravity 1\.0\d{4}\s+NBS Circular C440, Table 114$/);
    expect(await faults(page)).toEqual([]);
    await press(page, "Finishing glass");
    expect(await heading(page)).toBe("Finishing glass");
  });

  test("is followed to the next cell, and to one without a formula of ours", async () => {
    const page = await session({ ...filledBook, selectedFormula: hydrometer(1.01, 20) });
    await press(page, "Cell");
    await says(page, "Finishing glass");
    await select(page, hydrometer("n/a", 20));
    await says(page, /The reading is "n\/a": text, not a number/);
    expect(await page.getByRole("list", { name: "Steps" }).count()).toBe(0);
    await select(page, undefined);
    await says(page, /Select a cell with a formula of Gylesheet's/);
    expect(await faults(page)).toEqual([]);
  });

  test("explains calls within calls, and says so where it cannot", async () => {
    const calls = [
      { name: "HYDROMETER", args: [[[1.05]], [[25]]], isWhole: false },
      { name: "ABV", args: [{ call: 0 }, [[1.01]]], isWhole: true },
      { name: "ENERGY", args: undefined, isWhole: false },
    ];
    const page = await session({ ...filledBook, selectedFormula: { ...hydrometer(1.05, 25), calls } });
    await press(page, "Cell");
    await says(page, /worked out inside the formula, so its steps cannot be told/);
    await says(page, /^± 0\.001\d\d/);
    const abv = page.getByRole("region", { name: "ABV" });
    const inner = page.getByRole("region", { name: "HYDROMETER" });
    const gravity = /gravity (1\.0\d{4})/.exec(await inner.getByRole("listitem").last().innerText());
    const given = await abv.getByRole("list", { name: "Given" }).innerText();
    expect(given).toContain(`original: ${gravity?.[1]?.slice(0, 6) ?? "?"}`);
  });

  test("of a fermentation log shows a picture of it, with its stages in words", async () => {
    // 1.050 falling to 1.010 by a logistic curve (invented), every six hours; foam once.
    const days = Array.from({ length: 40 }, (_, i) => 46_100 + i / 4);
    const falls = days.map((day, i) =>
      i === 10 ? 1.09 : 1.05 - 0.04 / (1 + Math.exp(-1.5 * (day - 46_103))),
    );
    const column = (values: readonly unknown[]) => values.map((value) => [value]);
    const calls = [{ name: "FERMENT.REACHES", args: [column(days), column(falls), [[1.02]]], isWhole: true }];
    const cells = Object.fromEntries(days.map((_, i) => [`D${i + 1}`, 18 + i / 40]));
    const page = await session({ ...filledBook, cells, selectedFormula: { ...hydrometer(0, 0), calls } });
    await press(page, "Cell");
    await page.getByRole("img", { name: /^Gravity from 1\.050 on .* to 1\.010 .*, 40 readings\./ }).waitFor();
    expect(await page.locator(".key").innerText()).toMatch(
      /^○ logged, × set aside, solid line: smooth, dashed/,
    );
    const stages = await page.getByRole("table", { name: "Stages" }).getByRole("row").allInnerTexts();
    expect(stages.map((line) => line.split(/\s/)[1])).toEqual(["started", "fastest", "slowing", "steady"]);
    const chart = page.locator("svg.chart");
    expect(await chart.count()).toBe(1);
    expect(await chart.evaluate(firstAndLastGravity)).toEqual(["1.050", "1.010"]);
    const field = page.getByLabel(/^Temperatures to draw with it/);
    await field.fill("D1:D9");
    await field.press("Tab");
    await says(page, "These are 9 cells; the log has 40 rows.");
    await field.fill("D1:D40");
    await field.press("Tab");
    await page.locator(".key", { hasText: "temperature" }).waitFor();
    expect(await faults(page)).toEqual([]);
  });

  test("of a formula that fills several cells is explained by its own line", async () => {
    const column = {
      ...hydrometer(0, 0),
      row: 1,
      calls: [{ name: "HYDROMETER", args: [[[1.04], [1.06]], [[20]]], isWhole: true }],
    };
    const page = await session({ ...filledBook, selectedFormula: column });
    await press(page, "Cell");
    await says(page, "filled by the formula of another cell");
    expect((await steps(page)).at(-1)).toMatch(/^gravity 1\.06000/);
  });
});
