import { bundleForTests } from "../e2e/bundle.js";
import { startBrowser } from "../e2e/browser.js";
import { filledBook, visitPane } from "../e2e/pane-session.js";
import { chromium } from "../support/tools.js";

const RUNS = 7;

/** How long the pane takes in Chromium before its instruments can be clicked. */
export async function paneTimes(): Promise<string[]> {
  if (!chromium.present) return ["not measured without Chromium"];
  await bundleForTests("pane-page");
  const browser = await startBrowser();
  const times: number[] = [];
  for (let i = 0; i < RUNS; i++) {
    const { page } = await visitPane(browser, filledBook);
    await page.waitForFunction(() => window.usableAfter > 0);
    times.push(await page.evaluate(() => window.usableAfter));
    await page.context().close();
  }
  await browser.close();
  times.sort((a, b) => a - b);
  const [least = 0, most = 0] = [times[0], times.at(-1)].map((time) => Math.round(time ?? 0));
  return [`${least} to ${most} ms over ${RUNS} fresh pages, 7 instruments`];
}
