// Pages that load Microsoft's own scripts, in the version that package.json pins, and the functions bundle as it ships.
import { readdirSync, readFileSync } from "node:fs";
import type { Browser } from "playwright-core";
import { instruments } from "../support/instruments.js";
import { built, visit, type Site, type Visit } from "./browser.js";

const office = (path: string): URL =>
  new URL(`../../node_modules/@microsoft/office-js/${path}`, import.meta.url);

/** The version of Office.js that is installed. */
export const officeVersion = (JSON.parse(readFileSync(office("package.json"), "utf8")) as { version: string })
  .version;

/** Where a page finds what: every script of Office.js under its own name, as its loader asks for them by name. */
const site: Site = {
  ...Object.fromEntries(
    readdirSync(office("dist/"))
      .filter((name) => name.endsWith(".js"))
      .map((name) => [`/${name}`, office(`dist/${name}`)]),
  ),
  "/en-us/office_strings.js": office("dist/en-us/office_strings.js"),
  "/telemetry/oteljs_agave.js": office("dist/telemetry/oteljs_agave.js"),
  "/simulated-excel.js": new URL("simulated-excel.js", import.meta.url),
  "/functions.js": built("functions.js"),
};

/** As Excel on Windows calls the page of an add-in. */
export const IN_EXCEL = "/?_host_Info=Excel$Win32$16.01$en-US$$$$0";

/** Opens a page with classic blocking scripts: names of files, or lines of script. */
export function visitScripts(browser: Browser, scripts: readonly string[], path = "/"): Promise<Visit> {
  const tags = scripts.map((script) =>
    script.endsWith(".js") ? `<script src="/${script}"></script>` : `<script>${script}</script>`,
  );
  const page = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Functions</title>
<link rel="icon" href="data:,">${tags.join("")}</head><body></body></html>`;
  return visit(browser, { ...site, "/": page }, path);
}

/** The dispatcher for functions that have a runtime of their own. */
export const OWN_RUNTIME = ["simulated-excel.js", "custom-functions-runtime.js", "functions.js"];

/** The dispatcher for functions that share the page of the pane. */
export const SHARED_RUNTIME = ["simulated-excel.js", "office.js", "functions.js"];

/** Error cells arrive, as the metadata asks for. */
const ERRORS_ALLOWED = 4;

/** Cells arrive as rich values, packed as Excel packs them. */
export const RICH_VALUES = 8;

/** The dispatcher collects results for 50 ms, and sends none within 500 ms of the last. */
const UNTIL_SENT_MS = 600;

/** A page in Excel, with a clock that stands still. */
export interface FunctionsPage extends Visit {
  /** Sends calls in one message. Gives their numbers. */
  readonly send: (calls: readonly HostCall[], moreFlags?: number) => Promise<number[]>;
  /** What has come back to Excel after so many milliseconds more. */
  readonly after: (ms: number, ids: readonly number[]) => Promise<readonly (HostAnswer | undefined)[]>;
  /** Sends calls and gives what comes back as soon as the dispatcher lets it. */
  readonly ask: (
    calls: readonly HostCall[],
    moreFlags?: number,
  ) => Promise<readonly (HostAnswer | undefined)[]>;
}

export async function functionsPage(
  browser: Browser,
  scripts: readonly string[],
  path = "/",
): Promise<FunctionsPage> {
  const visited = await visitScripts(browser, scripts, path);
  const { page } = visited;
  await page.clock.install({ time: 0 });
  await page.clock.pauseAt(60_000);
  const send: FunctionsPage["send"] = (calls, moreFlags = 0) =>
    page.evaluate(([calls, flags]) => simulatedExcel.send(calls, flags), [
      calls,
      ERRORS_ALLOWED | moreFlags,
    ] as const);
  const after: FunctionsPage["after"] = async (ms, ids) => {
    await page.clock.runFor(ms);
    return page.evaluate((ids) => simulatedExcel.soFar(ids), ids);
  };
  return {
    ...visited,
    send,
    after,
    ask: async (calls, moreFlags) => after(UNTIL_SENT_MS, await send(calls, moreFlags)),
  };
}

/** The host hands over the instruments of the workbook. */
export const bringInstruments = ({ page }: Pick<Visit, "page">): Promise<void> =>
  page.evaluate((set) => {
    Gylesheet.useInstruments(set);
  }, instruments);

/** Script that gives the ids under which functions are associated. */
export const ASSOCIATED = "Object.keys(CustomFunctions._association.mappings).sort()";
