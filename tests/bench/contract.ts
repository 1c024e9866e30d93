import type { Browser, Page } from "playwright-core";
import { startBrowser } from "../e2e/browser.js";
import { bringInstruments, OWN_RUNTIME, visitScripts } from "../e2e/office-page.js";
import { chromium } from "../support/tools.js";

/** Milliseconds from the message with the calls to the last result that Excel gets. */
const timed = (page: Page, calls: readonly HostCall[]): Promise<number> =>
  page.evaluate(async (calls) => {
    const begun = Date.now();
    const answers = await simulatedExcel.answers(simulatedExcel.send(calls, 4));
    return Math.max(...answers.map(({ at }) => at)) - begun;
  }, calls);

/** First call in a fresh page, while the instruments come after a time. */
async function lateInstruments(browser: Browser, ms: number): Promise<string> {
  const { page } = await visitScripts(browser, OWN_RUNTIME);
  const answer = timed(page, [["HYDROMETER", [[[1.05]], [[25]], [["Starting glass"]], null]]]);
  await page.waitForTimeout(ms);
  await bringInstruments({ page });
  return `first call, instruments ${ms} ms late: ${await answer} ms`;
}

/** What Excel would wait for, through Microsoft's own dispatcher in a browser. */
export async function dispatcherTimes(): Promise<string[]> {
  if (!chromium.present) return [`not measured: ${chromium.install}`];
  const browser = await startBrowser();
  try {
    const { page } = await visitScripts(browser, OWN_RUNTIME);
    const column = (from: number): number[][] => Array.from({ length: 10_000 }, (_, i) => [from + i * 1e-6]);
    const range: HostCall = ["ABV", [column(1.04), column(1.01), null, null]];
    const scalar: HostCall = ["ABV", [[[1.048]], [[1.012]], null, null]];
    const pause = 600; // the dispatcher sends nothing within 500 ms of the last results
    const lines = [`first call: ${await timed(page, [scalar])} ms, of which 50 are the dispatcher's`];
    await page.waitForTimeout(pause);
    lines.push(`ABV of 10000 rows in one call: ${await timed(page, [range])} ms`);
    await page.waitForTimeout(pause);
    const many = Array.from({ length: 2000 }, () => scalar);
    lines.push(`ABV in 2000 calls: ${await timed(page, many)} ms`);
    return [...lines, await lateInstruments(browser, 300)];
  } finally {
    await browser.close();
  }
}
