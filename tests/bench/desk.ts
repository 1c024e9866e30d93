import { readFileSync } from "node:fs";
import { performance } from "node:perf_hooks";
import { gzipSync } from "node:zlib";
import type { Page, Request } from "playwright-core";
import { serveDesk } from "../../src/build/serve-desk.js";
import { built, startBrowser } from "../e2e/browser.js";
import { focusSheet, goTo, isOpen, open } from "../e2e/desk-session.js";
import { chromium } from "../support/tools.js";
import { batches } from "./batches.js";

const RUNS = 3;

/** What the page still has to do once a sheet shows: the pane, and its own copy for when there is no network. Milliseconds. */
const SETTLING = 1000;

async function seconds(run: () => Promise<unknown>): Promise<number> {
  const begun = performance.now();
  await run();
  return (performance.now() - begun) / 1000;
}

function range(times: readonly number[]): string {
  return `${Math.min(...times).toFixed(2)} to ${Math.max(...times).toFixed(2)} s`;
}

/** How long after Enter the last formula of a row has followed a reading that was typed, by the page's own clock. */
async function edit(page: Page, sheet: string, reading: string, result: string): Promise<number> {
  const reference = `${sheet}!${result}`;
  await goTo(page, sheet, reading);
  await focusSheet(page);
  await page.keyboard.type("1.0415");
  await page.evaluate(`(async () => {
    const value = async () => (await window.gylesheetHost.selection.at(${JSON.stringify(reference)})).rows[0][0];
    const before = await value();
    window.followed = new Promise((resolve) => {
      addEventListener("keydown", async () => {
        const begun = performance.now();
        while ((await value()) === before) await new Promise((next) => setTimeout(next, 1));
        resolve((performance.now() - begun) / 1000);
      }, { capture: true, once: true });
    });
  })()`);
  await page.keyboard.press("Enter");
  return page.evaluate("window.followed");
}

/** Asks for the processor time of a page's own thread, in seconds: on a busy computer it says more than a clock. */
async function processor(page: Page): Promise<() => Promise<number>> {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  return async () => {
    const { metrics } = await session.send("Performance.getMetrics");
    return metrics.find(({ name }) => name === "TaskDuration")?.value ?? NaN;
  };
}

/** Files that a page has asked for, made small as a server would. */
function weight(files: readonly string[]): string {
  const bytes = files.map((name) => readFileSync(new URL(name, built("desk/"))));
  const megabytes = (sizes: readonly number[]): string =>
    `${(sizes.reduce((sum, size) => sum + size, 0) / 1e6).toFixed(2)} MB`;
  const raw = megabytes(bytes.map((file) => file.length));
  return `${files.length} files, ${raw} raw, ${megabytes(bytes.map((file) => gzipSync(file, { level: 9 }).length))} gzip`;
}

/** How long the desk takes to open a workbook and to follow an edit, and what it asks of others. */
export async function deskFigures(): Promise<string[]> {
  if (!chromium.present) return ["not measured without Chromium"];
  const [browser, { server, port }] = await Promise.all([startBrowser(), serveDesk(41_900)]);
  const origin = `http://localhost:${port}`;
  const asked = new Set<string>();
  const times = {
    small: [] as number[],
    edits: [] as number[],
    large: [] as number[],
    largeEdits: [] as number[],
    processor: [] as number[],
  };
  const atStart = new Set<string>();
  try {
    for (let run = 0; run < RUNS; run++) {
      const context = await browser.newContext();
      context.on("request", (request) => asked.add(request.url()));
      const page = await context.newPage();
      page.setDefaultTimeout(120_000);
      page.on("dialog", (dialog) => void dialog.accept());
      const begin = async (): Promise<void> => {
        await page.goto(`${origin}/?file=season.xlsx`);
        await isOpen(page, "season.xlsx");
      };
      const scripts = (request: Request): void => {
        const name = new URL(request.url()).pathname.slice(1);
        if (/^[^/]+\.js$/.test(name) && name !== "service-worker.js") atStart.add(name);
      };
      page.on("request", scripts);
      const processorTime = await processor(page);
      times.small.push(await seconds(begin));
      times.processor.push(await processorTime());
      await page.waitForTimeout(SETTLING);
      page.off("request", scripts);
      times.edits.push(await edit(page, "Season", "D6", "N6"));
      await page.goto(`${origin}/`);
      await page.getByRole("button", { name: "Open a file …" }).waitFor();
      const load = async (): Promise<void> => {
        await open(page, "large.xlsx", batches(1_250, 8));
        await isOpen(page, "large.xlsx");
      };
      times.large.push(await seconds(load));
      await page.waitForTimeout(SETTLING);
      times.largeEdits.push(await edit(page, "Batches", "A6", "L6"));
      await context.close();
    }
  } finally {
    await browser.close();
    server.close();
  }
  const strays = [...asked].filter((url) => !url.startsWith(origin) && !/^(data|blob):/.test(url));
  return [
    `the season, from the address to a sheet that is calculated: ${range(times.small)} (bar 1.5)`,
    `  processor time of the page for it: ${range(times.processor)}`,
    `  an edit, from Enter until its row has followed: ${range(times.edits)} (bar 0.1)`,
    `10,000 formulas, from the choice of the file to a sheet that is calculated: ${range(times.large)}`,
    `  an edit, from Enter until its row has followed: ${range(times.largeEdits)} (bar 0.2)`,
    `scripts at the start: ${weight([...atStart])} (bar 1.7)`,
    `requests to anyone else: ${strays.length} of ${asked.size}`,
  ];
}
