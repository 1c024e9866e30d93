import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect } from "vitest";
import { sharedBrowser, type Visit } from "./browser.js";

/**
 * A browser for the tests of a file. All pages that were visited must in the end have asked for nothing from elsewhere, and
 * thrown nothing.
 */
export function quietBrowser(): { readonly browser: () => Browser; readonly visits: Visit[] } {
  const visits: Visit[] = [];
  // What is to be done afterwards is done in reverse order: this when the pages are gone.
  afterAll(() => {
    expect(visits.flatMap(({ strays }) => strays)).toEqual([]);
    expect(visits.flatMap(({ errors }) => errors)).toEqual([]);
  });
  return { browser: browserOfFile(), visits };
}

/** A browser for the tests of a file, which goes on to the next file without its pages. */
export function browserOfFile(): () => Browser {
  let browser: Browser;
  beforeAll(async () => {
    browser = await sharedBrowser();
  });
  afterAll(async () => {
    await Promise.all(browser.contexts().map((context) => context.close()));
  });
  return () => browser;
}
