import axe, { type AxeResults } from "axe-core";
import type { Page } from "playwright-core";

/** What axe-core finds wrong with a page as it stands, one line each. */
export async function faults(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() =>
    (window as unknown as { axe: { run: () => Promise<AxeResults> } }).axe.run(),
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary ?? ""}`),
  );
}
