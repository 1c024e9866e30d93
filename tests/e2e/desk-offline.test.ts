// The desk from a server, and then without one.
import { once } from "node:events";
import type { Server } from "node:http";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serveDesk } from "../../src/build/serve-desk.js";
import { chromium } from "../support/tools.js";
import { cells, isOpen } from "./desk-session.js";
import { browserOfFile } from "./quiet-browser.js";

describe.skipIf(!chromium.present)("the desk without a network", () => {
  const browser = browserOfFile();
  let served: { server: Server; port: number };

  beforeAll(async () => {
    served = await serveDesk(41_730);
  });
  afterAll(() => {
    served.server.close();
  });

  test("opens and calculates once it has been opened before, and asks nobody else for anything", async () => {
    // Another name of this computer: at "localhost" itself nothing is kept.
    const origin = `http://desk.localhost:${served.port}`;
    const page = await browser().newPage();
    const asked: string[] = [];
    page.context().on("request", (request) => asked.push(request.url()));
    page.setDefaultTimeout(20_000);
    await page.goto(origin);
    await page.evaluate(async () => (await navigator.serviceWorker.ready).active?.state);
    served.server.closeAllConnections();
    served.server.close();
    await once(served.server, "close");
    await page.goto(`${origin}/?file=season.xlsx`);
    await isOpen(page, "season.xlsx");
    const [row] = await cells(page, "Season!J5:L5");
    expect(row?.every((value) => typeof value === "number")).toBe(true);
    await page
      .frameLocator("#pane")
      .getByRole("button", { name: /^Bobber/ })
      .waitFor();
    expect(asked.filter((url) => !url.startsWith(origin) && !/^(data|blob):/.test(url))).toEqual([]);
  });
});
