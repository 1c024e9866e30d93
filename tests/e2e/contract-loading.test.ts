// The functions bundle before all that it needs is there: the instruments of the workbook, or Excel itself.
import { describe, expect, test } from "vitest";
import { TIME_LIMIT_MS } from "../../src/functions/contract/instruments-port.js";
import { figure, reference } from "../support/reference.js";
import { chromium } from "../support/tools.js";
import { ids } from "./every-function.js";
import { cellsOf } from "./host-cells.js";
import { ASSOCIATED, bringInstruments, functionsPage, OWN_RUNTIME, visitScripts } from "./office-page.js";
import { browserOfFile } from "./quiet-browser.js";

describe.skipIf(!chromium.present)("functions.js in a page that is not ready yet", () => {
  const browser = browserOfFile();

  describe("while the instruments of the workbook are not there", () => {
    // 15 °Bx at 25 °C, by the printed table of corrections.
    const spindle: HostCall = ["HYDROMETER", [[[15]], [[25]], [["Plato spindle"]], [["P"]]]];
    const corrected =
      15 +
      figure(
        reference("hydrometer-temp-brix20-transcribed").find((row) => row["t_C"] === "25"),
        "bx15",
      );

    test("formulas that name one wait, and are right as soon as they have come; others never wait", async () => {
      const excel = await functionsPage(browser(), OWN_RUNTIME);
      const { send, after } = excel;
      const naming = await send([spindle, ["INSTRUMENT", [[["Bobber"]], [["SCALE"]]]]]);
      const [abv, unnamed] = await excel.ask([
        ["ABV", [[[1.048]], [[1.012]], null, null]],
        ["HYDROMETER", [[[1.05]], [[20]], [[""]], null]],
      ]);
      expect([abv?.value, unnamed?.value]).toEqual([[[expect.closeTo(4.7, 1)]], [[expect.closeTo(1.05, 9)]]]);
      expect(await after(300, naming)).toEqual([undefined, undefined]);
      await bringInstruments(excel);
      const [hydrometer, scale] = await after(600, naming);
      expect(cellsOf(spindle, hydrometer)).toEqual([[expect.closeTo(corrected, 1.5)]]);
      expect(scale?.value).toEqual([["SG"]]);
      expect(excel.errors).toEqual([]);
    });

    test("the wait ends in #N/A that says why: at the time limit, or when they cannot be read", async () => {
      const excel = await functionsPage(browser(), OWN_RUNTIME);
      const first = await excel.send([spindle]);
      expect(await excel.after(TIME_LIMIT_MS - 1, first)).toEqual([undefined]);
      const says = (message: RegExp): object[][] => [
        [
          expect.objectContaining({
            code: "#N/A",
            message: expect.stringMatching(message) as string,
          }) as object,
        ],
      ];
      const [late] = await excel.after(600, first);
      expect(cellsOf(spindle, late)).toEqual(says(/could not be read yet\. Recalculate the cell/));

      const second = await excel.send([spindle]);
      expect(await excel.after(600, second)).toEqual([undefined]);
      await excel.page.evaluate(() => {
        Gylesheet.refuseInstruments("They were written by a later version.");
      });
      const [refused] = await excel.after(600, second);
      expect(cellsOf(spindle, refused)).toEqual(
        says(/cannot be read: They were written by a later version\./),
      );

      await bringInstruments(excel);
      const [right] = await excel.ask([spindle]);
      expect(cellsOf(spindle, right)).toEqual([[expect.closeTo(corrected, 1.5)]]);
    });
  });

  describe("before Excel is there", () => {
    test("only associate is needed, as before Office.js has loaded the part for its host", async () => {
      const bare = `const found = []; const CustomFunctions = new Proxy(
        { associate: (id) => found.push(id) },
        { get: (host, name) => name in host ? host[name] : (() => { throw new Error(name) })() })`;
      const { page, errors, strays } = await visitScripts(browser(), [bare, "functions.js"]);
      expect(await page.evaluate("found.sort()")).toEqual(ids);
      expect([errors, strays]).toEqual([[], []]);
    });

    test("outside of Excel, Office.js takes the functions and finds no host", async () => {
      const { page, requests, strays, errors } = await visitScripts(browser(), ["office.js", "functions.js"]);
      expect(await page.evaluate("Office.onReady()")).toMatchObject({ host: null });
      expect(await page.evaluate(ASSOCIATED)).toEqual(ids);
      // Besides the two of the page only what Office.js wants itself.
      expect(requests).toEqual(["/office.js", "/functions.js", "/o15apptofilemappingtable.js"]);
      expect([strays, errors]).toEqual([[], []]);
    });
  });
});
