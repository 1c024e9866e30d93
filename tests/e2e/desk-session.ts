import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { BrowserContextOptions, Page } from "playwright-core";
import type { Host } from "../../src/pane/ports.js";
import type { Cell } from "../../src/workbook/model.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { built, visit, type Site } from "./browser.js";
import { quietBrowser } from "./quiet-browser.js";

declare global {
  interface Window {
    /** What the page offers to its pane; tests read cells by it. */
    gylesheetHost: Host;
  }
}

/** Everything that the build put into dist/desk. */
function deskSite(): Site {
  const folder = fileURLToPath(built("desk/"));
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  );
  const paths = files.map(({ parentPath, name }) =>
    `${parentPath}/${name}`.slice(folder.length).replace(/^\//, ""),
  );
  return {
    "/": built("desk/index.html"),
    ...Object.fromEntries(paths.map((path) => [`/${path}`, built(`desk/${path}`)])),
  };
}

/** The desk in a quiet browser. */
export function deskSession(): (
  path?: string,
  before?: string,
  options?: BrowserContextOptions,
) => Promise<Page> {
  const { browser, visits } = quietBrowser();
  return async (path = "/", before = "", options = {}) => {
    const site = { "/blank": "<title>blank</title>", ...deskSite() };
    // A service worker would answer in the place of the site.
    const seen = await visit(browser(), site, "/blank", {
      serviceWorkers: "block",
      viewport: { width: 1280, height: 800 },
      ...options,
    });
    visits.push(seen);
    seen.page.setDefaultTimeout(20_000);
    if (before !== "") await seen.page.addInitScript(before);
    await seen.page.goto(new URL(path, seen.page.url()).href);
    return seen.page;
  };
}

/** Waits until a workbook is open. */
export async function isOpen(page: Page, name: string): Promise<void> {
  await page.getByRole("heading", { name, exact: true }).waitFor();
  await page.locator("#stage[aria-busy=false]").waitFor();
}

/** Opens a file by the page's button. */
export async function open(page: Page, name: string, bytes: Uint8Array): Promise<void> {
  const mimeType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
  await page
    .locator("input[type=file]")
    .first()
    .setInputFiles({ name, mimeType, buffer: Buffer.from(bytes) });
}

/** Values of cells, rows of them: "Season!A6:N6". */
export async function cells(page: Page, reference: string): Promise<unknown[][]> {
  const rows = await page.evaluate(async (r) => (await window.gylesheetHost.selection.at(r)).rows, reference);
  return rows.map((row) => [...row]);
}

/** Goes to a cell as the pane does. */
export async function goTo(page: Page, sheet: string, address: string): Promise<void> {
  const place = { sheet, address, formula: "", value: 0, instruments: [], anyInstrument: false };
  await page.evaluate((formula) => window.gylesheetHost.formulas.show(formula), place);
}

/** Brings the keyboard to the sheet by the key that leads there; a busy machine gets a second for each press. */
export async function focusSheet(page: Page): Promise<void> {
  const isThere = (): boolean => document.activeElement?.closest("#sheet") instanceof Element;
  if (await page.evaluate(isThere)) return;
  for (let i = 0; i < 3; i++) {
    await page.keyboard.press("F6");
    const came = page.waitForFunction(isThere, undefined, { timeout: 1000 }).then(
      () => true,
      () => false,
    );
    if (await came) return;
  }
  throw new Error("F6 does not lead to the sheet.");
}

/** Types into a cell and waits for what comes of it. */
export async function type(page: Page, sheet: string, address: string, text: string): Promise<void> {
  await goTo(page, sheet, address);
  await focusSheet(page);
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
}

/** Rests the pointer on one cell after another of a row that is in sight, until a text shows. */
export async function hover(page: Page, row: number, text: RegExp): Promise<void> {
  const box = await page.locator("canvas[id^=univer-sheet-main-canvas]").boundingBox();
  if (!box) throw new Error("There is no sheet.");
  // The headings of the columns and each row are 20 pixels high.
  const y = box.y + 20 + (row - 0.5) * 20;
  const shown = page.locator("body").getByText(text);
  for (let x = box.x + 60; x < box.x + box.width - 20; x += 40) {
    await page.mouse.move(x, y);
    await page.mouse.move(x + 1, y + 1);
    await page.waitForTimeout(120);
    if (await shown.isVisible()) return;
  }
  throw new Error(`No cell of row ${row} says it to the pointer.`);
}

/** What the sheet has in a cell once it is something else than before. */
export async function becomes(
  page: Page,
  reference: string,
  test: (rows: unknown[][]) => boolean,
): Promise<unknown[][]> {
  for (let tries = 0; tries < 100; tries++) {
    const rows = await cells(page, reference);
    if (test(rows)) return rows;
    await page.waitForTimeout(100);
  }
  throw new Error(`${reference} stays ${JSON.stringify(await cells(page, reference))}.`);
}

/** Fills columns of a sheet with the formulas of cells beside each other, down to a row. */
export async function fillDown(
  page: Page,
  sheet: string,
  from: string,
  last: number,
  columns = 1,
): Promise<void> {
  await goTo(page, sheet, from);
  await focusSheet(page);
  for (let column = 1; column < columns; column++) await page.keyboard.press("Shift+ArrowRight");
  for (let row = Number(from.replace(/\D/g, "")); row < last; row++)
    await page.keyboard.press("Shift+ArrowDown");
  await page.keyboard.press("Control+d");
}

/** The file that the page saves. */
export const saved = (page: Page): Promise<Uint8Array> =>
  downloaded(page, () => page.getByRole("button", { name: "Save as .xlsx" }).click());

/** The file that something offers for saving. */
export async function downloaded(
  page: Page,
  act: () => Promise<void>,
  timeout = 20_000,
): Promise<Uint8Array> {
  const [download] = await Promise.all([page.waitForEvent("download", { timeout }), act()]);
  const chunks: Buffer[] = [];
  for await (const chunk of await download.createReadStream()) chunks.push(chunk as Buffer);
  return new Uint8Array(Buffer.concat(chunks));
}

/** For pages that are pasted into. */
export const clipboard = { permissions: ["clipboard-read", "clipboard-write"] };

/** The cells of the first sheet in the file that the page saves. */
export async function savedCells(page: Page): Promise<(address: string) => Cell | undefined> {
  const all = (await openWorkbook(await saved(page))).model.sheets[0]?.cells ?? [];
  return (address) => {
    const [, letters = "", digits = ""] = /^([A-Z])(\d+)$/.exec(address) ?? [];
    return all.find(({ row, column }) => row === Number(digits) - 1 && column === letters.charCodeAt(0) - 65);
  };
}

/** Types into cells one below the other without a pause, the last letter by its key. */
export async function typeDown(
  page: Page,
  sheet: string,
  from: string,
  texts: readonly string[],
): Promise<void> {
  await goTo(page, sheet, from);
  await focusSheet(page);
  for (const text of texts) {
    await page.keyboard.insertText(text.slice(0, -1));
    await page.keyboard.type(text.slice(-1));
    await page.keyboard.press("Enter");
  }
}

/** Puts something on the clipboard and pastes it into a cell. */
export async function paste(
  page: Page,
  sheet: string,
  address: string,
  text: string,
  html = "",
): Promise<void> {
  await goTo(page, sheet, address);
  await focusSheet(page);
  await page.evaluate(
    async ([plain, rich]) => {
      const types = { ...(plain && { "text/plain": plain }), ...(rich && { "text/html": rich }) };
      const item = Object.entries(types).map(
        ([kind, content]) => [kind, new Blob([content], { type: kind })] as const,
      );
      await navigator.clipboard.write([new ClipboardItem(Object.fromEntries(item))]);
    },
    [text, html] as const,
  );
  await page.keyboard.press("Control+v");
  await page.waitForTimeout(600);
}

/** What is selected, as a reference. */
export const selected = (page: Page): Promise<string> =>
  page.evaluate(async () => (await window.gylesheetHost.selection.read()).reference);
