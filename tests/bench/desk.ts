import { readdirSync, readFileSync } from "node:fs";
import { performance } from "node:perf_hooks";
import { gzipSync } from "node:zlib";
import type { Page } from "playwright-core";
import { serveDesk } from "../../src/build/serve-desk.js";
import { built, startBrowser } from "../e2e/browser.js";
import { becomes, cells, isOpen, open, type } from "../e2e/desk-session.js";
import { chromium } from "../support/tools.js";
import { batches } from "./batches.js";

const RUNS = 3;

async function seconds(run: () => Promise<unknown>): Promise<number> {
  const begun = performance.now();
  await run();
  return (performance.now() - begun) / 1000;
}

function range(times: readonly number[]): string {
  return `${Math.min(...times).toFixed(2)} to ${Math.max(...times).toFixed(2)} s`;
}

/** Types a reading and waits for the last formula of its row. */
async function edit(page: Page, sheet: string, reading: string, result: string): Promise<number> {
  const [[before] = []] = await cells(page, `${sheet}!${result}`);
  return seconds(async () => {
    await type(page, sheet, reading, "1.0415");
    await becomes(page, `${sheet}!${result}`, ([row]) => row?.[0] !== before);
  });
}

/** Scripts and styles that the page loads, made small as a server would. */
function weight(): string {
  const files = readdirSync(built("desk/")).filter((name) => /\.(js|css|json|html)$/.test(name));
  const bytes = files.map((name) => readFileSync(new URL(name, built("desk/"))));
  const megabytes = (sizes: readonly number[]): string =>
    `${(sizes.reduce((sum, size) => sum + size, 0) / 1e6).toFixed(2)} MB`;
  const raw = megabytes(bytes.map((file) => file.length));
  return `${files.length} files, ${raw} raw, ${megabytes(bytes.map((file) => gzipSync(file).length))} gzip`;
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
  };
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
      times.small.push(await seconds(begin));
      times.edits.push(await edit(page, "Season", "D6", "N6"));
      await page.goto(`${origin}/`);
      await page.getByRole("button", { name: "Open a file …" }).waitFor();
      const load = async (): Promise<void> => {
        await open(page, "large.xlsx", batches(1_250, 8));
        await isOpen(page, "large.xlsx");
      };
      times.large.push(await seconds(load));
      times.largeEdits.push(await edit(page, "Batches", "A6", "L6"));
      await context.close();
    }
  } finally {
    await browser.close();
    server.close();
  }
  const strays = [...asked].filter((url) => !url.startsWith(origin) && !/^(data|blob):/.test(url));
  return [
    `the season, from the address to a sheet that is calculated: ${range(times.small)}`,
    `  an edit, until its row has followed: ${range(times.edits)}`,
    `10,000 formulas, from the choice of the file to a sheet that is calculated: ${range(times.large)}`,
    `  an edit, until its row has followed: ${range(times.largeEdits)}`,
    `page: ${weight()}`,
    `requests to anyone else: ${strays.length} of ${asked.size}`,
  ];
}
