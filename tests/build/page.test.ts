import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { taskPanePage } from "../../src/build/page.js";
import { development, production } from "../../src/build/release.js";
import { built, ORIGIN, visit } from "../e2e/browser.js";
import { browserOfFile } from "../e2e/quiet-browser.js";
import { chromium } from "../support/tools.js";
import { pageFaults, policy, scripts } from "./page-rules.js";

const published = taskPanePage(production("https://host.example"));

test("the page keeps to its rules, in development and published", () => {
  expect(pageFaults(taskPanePage(development))).toEqual([]);
  expect(pageFaults(published)).toEqual([]);
});

test("the rules find a page that breaks them", () => {
  for (const [from, to, says] of [
    ["default-src 'none'", "default-src *", "does not name"],
    ["script-src 'self'", "script-src 'self' 'unsafe-inline'", "anything in"],
    ["img-src 'self'", "img-src https:", "anything in"],
    ["connect-src 'none'", "connect-src 'self'", "connections out"],
    ["</main>", "</main><script>start()</script>", "script is inline"],
    ["<main", '<main style="color:red"', "style is inline"],
    ["<main", '<main onclick="start()"', "handler is inline"],
    ["</head>", "<style>main{color:red}</style></head>", "style is inline"],
    ['<script src="functions.js"></script>', "", "scripts come as office.js,pane.js"],
    ['src="functions.js"', 'defer src="functions.js"', "does not block"],
    [' lang="en"', "", "language"],
    [/<noscript>.*<\/noscript>/, "", "without scripts"],
    ['id="pane"', 'id="content"', "no place"],
  ] as const) {
    const broken = published.replace(from, to);
    expect(broken).not.toBe(published);
    expect(pageFaults(broken).join("\n")).toContain(says);
  }
});

test("office.js comes from Microsoft for people, out of node_modules for contributors", () => {
  expect(scripts(published)[0]).toBe("https://appsforoffice.microsoft.com/lib/1/hosted/office.js");
  expect(policy(published).get("script-src")).toContain("https://appsforoffice.microsoft.com");
  expect(scripts(taskPanePage(development))[0]).toBe("/office/office.js");
  expect(policy(taskPanePage(development)).get("script-src")).toEqual(["'self'"]);
});

describe.runIf(chromium.present)("under its policy, in a browser", () => {
  const browser = browserOfFile();

  const office = (file: string): URL =>
    new URL(`../../node_modules/@microsoft/office-js/dist/${file}`, import.meta.url);

  // office.js takes the kind of its host from the address, as Excel writes it, and loads that host's part of itself.
  for (const [host, file] of [
    ["Win32$16.01", "excel-win32-16.01.js"],
    ["Mac$16.00", "excel-mac-16.00.js"],
  ] as const)
    test(`office.js for ${host} loads all of itself, and the functions are there with it`, async () => {
      const {
        page: opened,
        strays,
        errors,
      } = await visit(
        browser(),
        {
          "/taskpane.html": taskPanePage(development),
          "/functions.js": built("functions.js"),
          "/pane.js": "",
          "/pane.css": "",
          ...Object.fromEntries(
            ["office.js", file, "en-us/office_strings.js"].map((name) => [`/office/${name}`, office(name)]),
          ),
        },
        `/taskpane.html?_host_Info=Excel$${host}$en-US$$$$0`,
      );
      await opened.waitForFunction(
        "typeof Excel === 'object' && typeof CustomFunctions.Error === 'function'",
      );
      const { functions } = JSON.parse(readFileSync(built("functions.json"), "utf8")) as {
        functions: object[];
      };
      expect(await opened.evaluate("Object.keys(CustomFunctions._association.mappings).length")).toBe(
        functions.length,
      );
      expect(strays).toEqual([]);
      expect(errors).toEqual([]);
      await opened.context().close();
    });

  // As it ships, under its policy: nothing of lit, zod or ours may need what the policy forbids.
  const whole = (officeFiles: readonly string[]): Record<string, string | URL> => ({
    "/taskpane.html": taskPanePage(development),
    "/functions.js": built("functions.js"),
    "/pane.js": built("pane.js"),
    "/pane.css": built("pane.css"),
    ...Object.fromEntries(officeFiles.map((name) => [`/office/${name}`, office(name)])),
  });

  test("the whole page says outside Excel where it belongs", async () => {
    const site = whole(["office.js", "o15apptofilemappingtable.js"]);
    const { page: opened, strays, errors } = await visit(browser(), site, "/taskpane.html");
    await opened.getByRole("alert").getByText("works inside Excel").waitFor();
    expect(strays.filter((url) => url.startsWith(ORIGIN) && !url.endsWith("/favicon.ico"))).toEqual([]);
    expect(errors.filter((error) => !error.includes("favicon") && !error.includes("ERR_FAILED"))).toEqual([]);
    await opened.context().close();
  });

  test("the whole page says so where office.js does not arrive", async () => {
    const { page: opened } = await visit(browser(), whole([]), "/taskpane.html");
    await opened.getByRole("alert").getByText("Excel does not answer.").waitFor();
    await opened.context().close();
  });

  test("the whole page says so where the functions do not arrive", async () => {
    const ready =
      "window.Office = { onReady: () => Promise.resolve({ host: 'Excel' }), HostType: { Excel: 'Excel' }, context: { requirements: { isSetSupported: () => true } } };";
    const site = { ...whole([]), "/office/office.js": ready, "/functions.js": "" };
    const { page: opened } = await visit(browser(), site, "/taskpane.html");
    await opened.getByRole("alert").getByText("Gylesheet has not arrived as a whole.").waitFor();
    await opened.context().close();
  });

  test("a script of another host, one in the page and a connection are held back", async () => {
    const { page: opened, strays } = await visit(browser(), {
      "/": taskPanePage(development).replace("</main>", "</main><script>globalThis.inline = 1</script>"),
      "/office/office.js": "",
      "/functions.js": "",
      "/pane.js":
        'const far = document.createElement("script"); far.src = "https://elsewhere.example/x.js"; document.head.append(far); fetch("/sent").catch(() => { globalThis.held = true; });',
      "/pane.css": "",
      "/sent": "",
    });
    await opened.waitForFunction("globalThis.held");
    expect(await opened.evaluate("globalThis.inline")).toBeUndefined();
    expect(strays).toEqual([]);
    expect(opened.url()).toBe(`${ORIGIN}/`);
    await opened.context().close();
  });
});
