import axe, { type AxeResults, type ElementContext } from "axe-core";
import type { Page } from "playwright-core";

/**
 * What axe-core finds wrong with a page as it stands, one line each.
 *
 * @param within selects what is looked at, and `but` what is left out of it
 */
export async function faults(page: Page, within = "html", but: readonly string[] = []): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe.source);
  const context = { include: [within], exclude: [...but] };
  const { violations } = await page.evaluate(
    (given) =>
      (window as unknown as { axe: { run: (context: ElementContext) => Promise<AxeResults> } }).axe.run(
        given,
      ),
    context,
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary ?? ""}`),
  );
}
