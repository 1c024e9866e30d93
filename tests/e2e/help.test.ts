// The help as the desk serves it, on a phone and on paper.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { chromium } from "../support/tools.js";
import { faults } from "./accessibility.js";
import { built, ORIGIN, visit, type Site } from "./browser.js";
import { quietBrowser } from "./quiet-browser.js";

const folder = (path: string): string => fileURLToPath(built(path));
const names = readdirSync(folder("desk/help/")).sort();

/** Kept to what the pages ask for: a style sheet and each other. */
const site: Site = Object.fromEntries(
  names.map((name) => [`/help/${name}`, built(`desk/help/${name}`)] as const),
);

test("the desk serves the same help as the add-in", () => {
  expect(names).toEqual(readdirSync(folder("help/")).sort());
  for (const name of names)
    expect(readFileSync(built(`desk/help/${name}`), "utf8")).toBe(
      readFileSync(built(`help/${name}`), "utf8"),
    );
});

describe.skipIf(!chromium.present)("a help page", () => {
  const { browser, visits } = quietBrowser();
  const pages = names.filter((name) => name.endsWith(".html"));

  test("never scrolls sideways on a phone", async () => {
    const seen = await visit(browser(), site, "/help/index.html", { viewport: { width: 360, height: 700 } });
    visits.push(seen);
    // In a frame as wide as a phone: much faster than going from page to page.
    const widths = await seen.page.evaluate(async (all) => {
      const found: [string, number | undefined][] = [];
      for (const name of all) {
        const frame = Object.assign(document.createElement("iframe"), { src: name, width: 360, height: 700 });
        frame.style.border = "0";
        const loaded = new Promise((resolve) => {
          frame.addEventListener("load", resolve);
        });
        document.body.append(frame);
        await loaded;
        found.push([name, frame.contentDocument?.documentElement.scrollWidth]);
        frame.remove();
      }
      return found;
    }, pages);
    expect(widths).toEqual(pages.map((name) => [name, 360]));
  });

  // One page of each make; in both schemes.
  for (const colorScheme of ["light", "dark"] as const)
    test(`has nothing that axe-core finds wrong, ${colorScheme}`, async () => {
      const seen = await visit(browser(), site, "/help/index.html", { colorScheme });
      visits.push(seen);
      for (const name of ["index.html", "when.html", "reading-hydrometer.html", "season.html"]) {
        await seen.page.goto(`${ORIGIN}/help/${name}`);
        expect([name, await faults(seen.page)]).toEqual([name, []]);
      }
    });

  test("is led to by its links, and back to the list", async () => {
    const seen = await visit(browser(), site, "/help/index.html");
    visits.push(seen);
    const { page } = seen;
    await page
      .getByRole("link", { name: "What is the true gravity behind this hydrometer reading?" })
      .click();
    expect(await page.getByRole("heading", { level: 1 }).innerText()).toBe("GYLE.HYDROMETER");
    await page.getByRole("link", { name: "hydrometer", exact: true }).last().click();
    expect(await page.getByRole("heading", { level: 1 }).innerText()).toBe("A good reading: hydrometer");
    await page.getByRole("link", { name: "All functions" }).click();
    expect(page.url()).toMatch(/\/index\.html$/);
  });

  test("is printed without its navigation, black on white", async () => {
    const seen = await visit(browser(), site, "/help/hydrometer.html", { colorScheme: "dark" });
    visits.push(seen);
    const { page } = seen;
    await page.emulateMedia({ media: "print" });
    expect(await page.getByRole("navigation", { includeHidden: true }).isVisible()).toBe(false);
    const colours = await page.evaluate(() => {
      const { color, backgroundColor } = getComputedStyle(document.body);
      const link = document.querySelector("main a");
      return [color, backgroundColor, link ? getComputedStyle(link).color : ""];
    });
    expect(colours).toEqual(["rgb(0, 0, 0)", "rgb(255, 255, 255)", "rgb(0, 0, 0)"]);
  });
});
