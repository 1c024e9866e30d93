// A brewer's log at the desk, from new columns to the copies for a partner: an instrument turns out to be two points off, the
// cells follow, and what is handed over is read by another spreadsheet program.
import type { FrameLocator, Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { brewLog, folderWith, read, recalc, valuesIn } from "../recalc/command.js";
import { convert } from "../support/libreoffice.js";
import { expectOnlyChanged, patchBook } from "../support/patched.js";
import { chromium, libreOffice } from "../support/tools.js";
import {
  becomes,
  cells,
  deskSession,
  downloaded,
  fillDown,
  isOpen,
  open,
  saved,
  type,
} from "./desk-session.js";

const FIRST = 4;
const LAST = 41;
const NEW = `Batches!M${FIRST}:O${LAST}`;
/** Bars of a live copy. */
const bars = { M: 0.000_02, N: 0.000_02, O: 0.005 };

describe.skipIf(!chromium.present)("a log is handed over", () => {
  const desk = deskSession();
  let page: Page;
  let pane: FrameLocator;
  let before: unknown[][];
  let original: Uint8Array;
  const copies: Record<string, Uint8Array> = {};

  const press = (name: string | RegExp): Promise<void> =>
    pane.getByRole("button", { name, exact: true }).first().click();
  const fill = (label: string | RegExp, text: string): Promise<void> =>
    pane.getByRole("textbox", { name: label }).first().fill(text);

  beforeAll(async () => {
    page = await desk("/");
    page.on("dialog", (dialog) => void dialog.accept());
    pane = page.frameLocator("#pane");
    await open(page, "log.xlsx", brewLog());
    await isOpen(page, "log.xlsx");
  });

  test("new columns name the instrument that the readings were taken with", { timeout: 60_000 }, async () => {
    await press(/^Hydrometer, true at 20 °C/);
    await fill(/^Name/, "Cellar glass");
    await fill(/^Smallest division/, "0.001");
    await press("Add to workbook");
    await pane.getByText('"Cellar glass" is in this workbook now.').waitFor();
    await type(page, "Batches", `M${FIRST}`, `=GYLE.HYDROMETER(D${FIRST},E${FIRST},"Cellar glass")`);
    await type(page, "Batches", `N${FIRST}`, `=GYLE.HYDROMETER(G${FIRST},H${FIRST},"Cellar glass")`);
    await type(page, "Batches", `O${FIRST}`, `=GYLE.ABV(M${FIRST},N${FIRST})`);
    await fillDown(page, "Batches", `M${FIRST}`, LAST, 3);
    before = await becomes(page, NEW, (rows) => typeof rows[1]?.[2] === "number" && rows.at(-3)?.[0] !== "");
  });

  test("the glass turns out to be two points off: the cells follow, and the pane says which", async () => {
    await press("Instruments");
    await press("Calibrate");
    await fill(/^Reading/, "1.048");
    await fill(/^Temperature of all pairs/, "20");
    await fill(/^True strength/, "1.050");
    await press("See what would change");
    await press("Apply to the workbook");
    await pane.getByText(/formulas calculated again\./).waitFor();
    const after = await becomes(page, NEW, (rows) => rows[0]?.[0] !== before[0]?.[0]);
    // Two points at 20 °C; a little else where the sample was warm.
    for (const [i, row] of after.entries())
      for (const column of [0, 1])
        if (typeof row[column] === "number")
          expect(row[column] - (before[i]?.[column] as number)).toBeCloseTo(0.002, 4);
    await press("What changed");
    await pane.getByRole("heading", { name: /^By more than they are sure to: \d+ cells/ }).waitFor();
    await press("Workbook");
    await press("Back to This workbook");
    await press(/^Calculate everything again/);
    await press("Calculate again");
    await pane.getByText(/calculated again\. No cell shows anything else\./).waitFor();
    await press("Back to This workbook");
  });

  test("copies are made, and the workbook stays as it is", { timeout: 120_000 }, async () => {
    original = await saved(page);
    const shown = await cells(page, NEW);
    await press(/^Hand over/);
    for (const [way, says] of [
      ["As values", /^\d+ formulas became values/],
      ["Live without the add-in", /^(\d+) of \1 formulas go on calculating/],
      ["As it is", /^\d+ formulas of Gylesheet's went along/],
    ] as const) {
      copies[way] = await downloaded(page, () => press(new RegExp(`^${way}`)), 60_000);
      await pane.getByText(says).waitFor();
    }
    expect(await cells(page, NEW)).toEqual(shown);
    // Each file that is saved gives the part with the instruments an id of its own.
    expectOnlyChanged(original, await saved(page), ["customXml/itemProps1.xml"]);
  });

  test("no formula of ours is left in the copies for those who have no add-in", async () => {
    for (const way of ["As values", "Live without the add-in"]) {
      const { sheets } = (await openWorkbook(copies[way] ?? new Uint8Array())).model;
      const texts = sheets.flatMap((sheet) => sheet.cells.flatMap(({ formula }) => formula?.text ?? []));
      expect(texts.filter((text) => /gyle[._]/i.test(text))).toEqual([]);
      expect(sheets.at(-1)?.cells.map(({ value }) => value)).toContain("Cellar glass");
    }
    const { sheets } = (await openWorkbook(copies["As it is"] ?? new Uint8Array())).model;
    expect(sheets.at(-1)?.name).toBe("Getting the add-in");
    expect(sheets[0]?.cells.filter(({ formula }) => /GYLE/.test(formula?.text ?? "")).length).toBe(
      3 * (LAST - FIRST + 1),
    );
  });

  test.skipIf(!libreOffice.present)(
    "LibreOffice shows every value of them as it was, and follows a changed reading in the live one",
    { timeout: 120_000 },
    async () => {
      const ours = await valuesIn(original);
      const compare = async (bytes: Uint8Array, mine: typeof ours, isLive: boolean): Promise<number> => {
        const theirs = await valuesIn(await convert(bytes, "xlsx", true));
        let compared = 0;
        for (const [letter, bar] of Object.entries(bars))
          for (let row = FIRST; row <= LAST; row++) {
            const address = `Batches!${letter}${row}`;
            const [expected, seen] = [mine(address), theirs(address)];
            if (typeof expected !== "number") {
              expect([address, typeof seen]).not.toEqual([address, "number"]);
              continue;
            }
            const off = Math.abs((seen as number) - expected);
            expect([address, off <= (isLive ? bar : 1e-12)]).toEqual([address, true]);
            compared++;
          }
        return compared;
      };
      expect(await compare(copies["As values"] ?? original, ours, false)).toBeGreaterThan(80);
      expect(await compare(copies["Live without the add-in"] ?? original, ours, true)).toBeGreaterThan(80);
      const readings = [
        { sheet: "Batches", row: FIRST - 1, column: 3, value: 1061.5 },
        { sheet: "Batches", row: FIRST, column: 4, value: 31.5 },
      ];
      const folder = folderWith({ "log.xlsx": await patchBook(original, readings) });
      await recalc(folder, "log.xlsx");
      const changed = await valuesIn(read(folder, "log.xlsx"));
      expect(changed(`Batches!M${FIRST}`)).not.toBe(ours(`Batches!M${FIRST}`));
      await compare(await patchBook(copies["Live without the add-in"] ?? original, readings), changed, true);
    },
  );
});
