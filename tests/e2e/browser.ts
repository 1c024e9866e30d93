// A real browser with pages that exist only inside it: every request is answered from here, and none leaves.
import { readFile } from "node:fs/promises";
import { extname } from "node:path";
import { chromium as launcher, type Browser, type BrowserContextOptions, type Page } from "playwright-core";
import { chromium } from "../support/tools.js";

/** Where the pages seem to come from. */
export const ORIGIN = "https://gylesheet.test";

/** What is at each path of ORIGIN: a text, or the file at a URL. */
export type Site = Readonly<Record<string, string | URL>>;

export interface Visit {
  readonly page: Page;
  /** Paths of the site that were asked for, without the page itself. */
  readonly requests: readonly string[];
  /** Requests for anything that the site does not have. */
  readonly strays: readonly string[];
  /** Uncaught exceptions and messages of the page's console that are errors. */
  readonly errors: readonly string[];
  /** Goes on to another site in the same profile. */
  readonly goTo: (site: Site) => Promise<void>;
}

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};

/** A file that the build made. */
export const built = (path: string): URL => new URL(`../../dist/${path}`, import.meta.url);

/** Starts Chromium. Only for tests that are left out where `chromium.present` is false. */
export function startBrowser(): Promise<Browser> {
  return launcher.launch({
    ...(chromium.path === undefined ? {} : { executablePath: chromium.path }),
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}

let running: Promise<Browser> | undefined;

/** The one browser of a worker, which takes one test file after the other. It ends with the worker. */
export async function sharedBrowser(): Promise<Browser> {
  const before = await running?.catch(() => undefined);
  if (before?.isConnected()) return before;
  running = startBrowser();
  return running;
}

const bodies = new Map<string, Promise<Buffer>>();

/** The bytes of a file, read once: a build does not change while tests run. */
function bodyOf(file: URL): Promise<Buffer> {
  const read = bodies.get(file.href) ?? readFile(file);
  bodies.set(file.href, read);
  return read;
}

/** Opens a page on a site, in a profile of its own. */
export async function visit(
  browser: Browser,
  site: Site,
  path = "/",
  options: BrowserContextOptions = {},
): Promise<Visit> {
  const page = await (await browser.newContext(options)).newPage();
  const requests: string[] = [];
  const strays: string[] = [];
  const errors: string[] = [];
  let here = site;
  page.on("pageerror", (error) => errors.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  await page.route("**/*", async (route) => {
    const url = new URL(route.request().url());
    const found = url.origin === ORIGIN ? here[url.pathname] : undefined;
    if (found === undefined) {
      strays.push(url.href);
      await route.abort();
    } else {
      if (!route.request().isNavigationRequest()) requests.push(url.pathname);
      const body = typeof found === "string" ? found : await bodyOf(found);
      const type = types[extname(url.pathname)] ?? "text/html; charset=utf-8";
      await route.fulfill({ body, contentType: type });
    }
  });
  await page.goto(`${ORIGIN}${path}`);
  const goTo = async (next: Site): Promise<void> => {
    here = next;
    await page.goto(`${ORIGIN}/`);
  };
  return { page, requests, strays, errors, goTo };
}
