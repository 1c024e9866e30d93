import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect } from "vitest";
import { startBrowser, type Visit } from "./browser.js";

/**
 * A browser for the tests of a file. All pages that were visited must in the end have asked for nothing from elsewhere, and
 * thrown nothing.
 */
export function quietBrowser(): { readonly browser: () => Browser; readonly visits: Visit[] } {
  let browser: Browser;
  const visits: Visit[] = [];
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(async () => {
    await browser.close();
    expect(visits.flatMap(({ strays }) => strays)).toEqual([]);
    expect(visits.flatMap(({ errors }) => errors)).toEqual([]);
  });
  return { browser: () => browser, visits };
}
