import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { readPart, writePart } from "../../src/instruments/part.js";
import type { OurFormula } from "../../src/pane/ports/formulas-port.js";
import { instruments } from "../support/instruments.js";
import type { InstrumentSet } from "../../src/instruments/set.js";
import { built, visit, type Site, type Visit } from "./browser.js";
import type { Book } from "./memory-host.js";
import { quietBrowser } from "./quiet-browser.js";

/** What a test gives of the workbook; the rest is empty. */
export type BookStart = Partial<Omit<Book, "log" | "saved" | "lookAgain" | "lookAtCell" | "type">>;

const formula = (address: string, text: string, ...names: readonly string[]): OurFormula => ({
  sheet: "Season",
  address,
  formula: text,
  value: 1.05,
  instruments: names,
  anyInstrument: false,
});

/** A workbook of an invented brewery with some instruments and a few formulas. */
export const filledBook: BookStart = {
  parts: [writePart(instruments)],
  cells: { A1: "Reading", A2: 1.046, A3: 1.05, B1: "°C", B2: 27, B3: 15, D1: "taken" },
  formulas: [
    formula("C2", '=GYLE.HYDROMETER(A2,B2,"Starting glass")', "Starting glass"),
    formula("C3", '=GYLE.HYDROMETER(A3,B3,"starting glass")', "starting glass"),
    formula("E2", '=GYLE.REFRACTOMETER.WORT(12,,"Pocket prism")', "Pocket prism"),
    formula("F2", "=GYLE.ABV(1.05,1.01)"),
  ],
};

/** The pane around a workbook. */
function paneSite(start: BookStart): Site {
  const book = {
    parts: [],
    formulas: [],
    cells: {},
    selected: "A2",
    log: [],
    saved: [],
    findTakes: 0,
    findings: [],
    locked: [],
    failing: undefined,
    savesNothing: false,
    ...start,
  };
  const page = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Pane</title><link rel="icon" href="data:,">
<link rel="stylesheet" href="pane.css"></head><body><div id="pane"></div>
<script src="book.js"></script><script src="host.js"></script>
<script src="functions.js"></script><script src="pane-page.js"></script></body></html>`;
  return {
    "/": page,
    "/pane.css": built("pane.css"),
    "/functions.js": built("functions.js"),
    "/pane-page.js": built("test/pane-page.js"),
    "/book.js": `window.book = ${JSON.stringify(book)};`,
    // What the functions bundle asks of Excel; its functions are kept for tests that call them as cells do.
    "/host.js": `window.cells = {};
window.CustomFunctions = { associate(id, cell) { cells[id] = cell; }, Error: class {}, ErrorCode: {} };`,
  };
}

/** Opens the pane at the size that it has in a spreadsheet. */
export const visitPane = (
  browser: Browser,
  start: BookStart,
  options: BrowserContextOptions = {},
): Promise<Visit> =>
  visit(browser, paneSite(start), "/", { viewport: { width: 350, height: 700 }, ...options });

/** The pane in a quiet browser. */
export function paneSession(): (start?: BookStart, options?: BrowserContextOptions) => Promise<Page> {
  const { browser, visits } = quietBrowser();
  let plain: Visit | undefined;
  return async (start = {}, options) => {
    // A profile takes longer to make than a page, and nothing of the pane's stays in one.
    if (plain && !options) await plain.goTo(paneSite(start));
    const seen = options || !plain ? await visitPane(browser(), start, options) : plain;
    if (!options) plain = seen;
    if (!visits.includes(seen)) visits.push(seen);
    seen.page.setDefaultTimeout(10_000);
    await seen.page.getByRole("heading", { level: 1 }).waitFor();
    return seen.page;
  };
}

/** The workbook as it is now. */
export const book = (page: Page): Promise<Book> =>
  page.evaluate(() => JSON.parse(JSON.stringify(window.book)) as Book);

/** The instruments in the workbook's youngest part. */
export const stored = async (page: Page): Promise<InstrumentSet> =>
  readPart((await book(page)).parts.at(-1) ?? "");

export const heading = (page: Page): Promise<string> => page.getByRole("heading", { level: 1 }).innerText();

/** Waits until something can be read on the page. */
export const says = (page: Page, text: string | RegExp): Promise<void> =>
  page.getByText(text).first().waitFor();
