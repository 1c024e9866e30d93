// What is typed at the desk that is no formula, where keys lead, what is refused, and what other programs see of it.
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { starter } from "../recalc/command.js";
import { buildBook, sheetXml } from "../support/build-workbook.js";
import { convert } from "../support/libreoffice.js";
import { chromium, libreOffice } from "../support/tools.js";
import {
  becomes,
  cells,
  clipboard,
  deskSession,
  focusSheet,
  goTo,
  isOpen,
  open,
  paste,
  saved,
  savedCells,
  selected,
  typeDown,
} from "./desk-session.js";

const rows = Array.from(
  { length: 12 },
  (_, i) => `<row r="${i + 1}"><c r="A${i + 1}"><v>${i + 1}</v></c></row>`,
);
const book = (): Uint8Array => buildBook({ sheets: { Log: sheetXml(rows.join("")), Other: sheetXml("") } });

/** Days since 30 December 1899, as spreadsheets count them. */
const day = (year: number, month: number, date: number): number =>
  (Date.UTC(year, month - 1, date) - Date.UTC(1899, 11, 30)) / 86_400_000;

describe.skipIf(!chromium.present)("entries at the desk", () => {
  const desk = deskSession();
  const opened = async (options = {}): Promise<Page> => {
    const page = await desk("/", "", options);
    page.on("dialog", (dialog) => void dialog.accept());
    await open(page, "book.xlsx", book());
    await isOpen(page, "book.xlsx");
    return page;
  };

  const entries = (locale: string): readonly (readonly [string, unknown])[] => [
    ["01.05.2026", day(2026, 5, 1)],
    ["28.11.2026", day(2026, 11, 28)],
    ["2026-11-28", day(2026, 11, 28)],
    ["3/4/2026", locale === "en-US" ? day(2026, 3, 4) : locale === "en-GB" ? day(2026, 4, 3) : "3/4/2026"],
    ["0x10", "0x10"],
    ["#N/A", { error: "#N/A" }],
    ["#div/0!", { error: "#DIV/0!" }],
    ["12,5", locale === "de-DE" ? 12.5 : "12,5"],
    ["1.050", 1.05],
    ["1,000", locale === "de-DE" ? 1 : 1000],
    ["1 000", "1 000"],
    ["007", 7],
    ["'007", "007"],
    ["5%", 0.05],
    ["10:5", (10 + 5 / 60) / 24],
    ["true", true],
    ["0b1", "0b1"],
    ["31.02.2026", "31.02.2026"],
    ["12345678901234567890", "12345678901234567890"],
    ["+", "+"],
  ];

  test.each(["en-US", "en-GB", "de-DE"])(
    "are taken for what they are, typed and pasted, for a reader of %s",
    async (locale) => {
      const page = await opened({ ...clipboard, locale });
      const wanted = entries(locale === "de-DE" ? "de-DE" : locale).map(
        ([text, value]) =>
          [text, text === "3/4/2026" && locale === "de-DE" ? day(2026, 4, 3) : value] as const,
      );
      await typeDown(
        page,
        "Log",
        "C1",
        wanted.map(([text]) => text),
      );
      await paste(page, "Log", "E1", wanted.map(([text]) => text).join("\n"));
      await typeDown(page, "Log", "G1", ["=ISNA(C6)", "=C9*1000", "=ISTEXT(C5)"]);
      expect(await becomes(page, "Log!G1:G3", (all) => all.every(([value]) => value !== ""))).toEqual([
        [true],
        [1050],
        [true],
      ]);
      const at = await savedCells(page);
      for (const column of ["C", "E"])
        expect(wanted.map(([text], i) => [text, at(`${column}${i + 1}`)?.value])).toEqual(wanted);
      await page.close();
    },
  );

  test("pasted cells keep their places, line breaks and signs, can be undone, and need no room beforehand", async () => {
    const page = await opened(clipboard);
    await paste(page, "Log", "C1", '\ta<b\n=A1<2\t"two\nlines"\n');
    const pasted = [
      ["", "a<b"],
      [true, "two\nlines"],
    ];
    expect(await becomes(page, "Log!C1:D2", (all) => all[1]?.[0] === true)).toEqual(pasted);
    await focusSheet(page);
    await page.keyboard.press("Control+z");
    await becomes(page, "Log!C1:D2", (all) => all.flat().every((value) => value === ""));
    await page.keyboard.press("Control+y");
    expect(await becomes(page, "Log!C1:D2", (all) => all[1]?.[0] === true)).toEqual(pasted);
    await paste(
      page,
      "Log",
      "F1",
      "",
      "<table><tr><td>1.050</td><td colspan=2>x<br>y</td></tr><tr><td>a</td><td></td><td> 5&nbsp;% </td></tr></table>",
    );
    expect(await cells(page, "Log!F1:H2")).toEqual([
      [1.05, "x\ny", ""],
      ["a", "", 0.05],
    ]);
    await paste(page, "Log", "J90", Array.from({ length: 200 }, (_, i) => String(i)).join("\n"));
    expect((await savedCells(page))("J289")?.value).toBe(199);
    await page.close();
  });

  test("Enter goes below where Tab began, and nowhere else", async () => {
    const page = await opened();
    const sheet = await page.locator("canvas[id^=univer-sheet-main-canvas]").boundingBox();
    const click = async (column: number, row: number): Promise<void> => {
      const [x = 0, y = 0] = [sheet?.x, sheet?.y];
      await page.mouse.click(x + 46 + (column + 0.5) * 64, y + 20 + (row - 0.5) * 20);
    };
    const go = async (...keys: string[]): Promise<string> => {
      for (const key of keys) {
        if (key.startsWith("=")) await page.keyboard.insertText(key.slice(1));
        else await page.keyboard.press(key);
        await page.waitForTimeout(30);
      }
      return selected(page);
    };
    const begin = async (address: string): Promise<void> => {
      await goTo(page, "Log", address);
      await focusSheet(page);
    };
    await begin("B2");
    expect(await go("=1", "Tab", "=2", "Tab", "=3", "Enter")).toBe("B3");
    expect(await go("=4", "Tab", "Tab", "Enter")).toBe("B4");
    await begin("B5");
    await go("=5", "Tab");
    await click(3, 8);
    const clicked = await selected(page);
    expect(clicked).toMatch(/^[A-Z]8$/);
    expect(await go("=6", "Enter")).toBe(`${clicked.charAt(0)}9`);
    expect(await go("=7", "Enter")).toBe(`${clicked.charAt(0)}10`);
    await begin("B5");
    expect(await go("Tab", "Tab", "ArrowDown", "=8", "Enter")).toBe("D7");
    await begin("D5");
    expect(await go("Tab", "Shift+Tab", "Shift+Tab", "Enter")).toBe("D6");
    await begin("B5");
    expect(await go("Tab", "Shift+Enter")).toBe("B4");
    await begin("B5");
    await go("=9", "Tab");
    await begin("F9");
    expect(await go("=10", "Enter")).toBe("F10");
    // The name box.
    await begin("B5");
    await go("Tab");
    await page.locator("#sheet input").first().fill("H4");
    await page.keyboard.press("Enter");
    await focusSheet(page);
    expect(await go("=11", "Enter")).toBe("H5");
    // To the pane and back, and with an undo in between.
    await begin("B7");
    await go("=12", "Tab");
    await page.frameLocator("#pane").getByRole("button", { name: "Cell", exact: true }).click();
    await focusSheet(page);
    expect(await go("=13", "Enter")).toBe("B8");
    await begin("B9");
    expect(await go("=14", "Tab", "Control+z", "=15", "Enter")).toMatch(/^[BC]10$/);
    // In several cells the keys go round.
    await begin("J2");
    expect(
      await go(
        "Shift+ArrowDown",
        "Shift+ArrowRight",
        "=1",
        "Tab",
        "=2",
        "Tab",
        "=3",
        "Tab",
        "=4",
        "Tab",
        "=5",
        "Enter",
      ),
    ).toBe("J2:K3");
    expect(await cells(page, "J2:K3")).toEqual([
      [5, 2],
      [3, 4],
    ]);
    // At the edges they stay.
    await begin("A1");
    expect(await go("ArrowUp", "ArrowLeft", "Shift+Tab", "Shift+Enter")).toBe("A1");
    // Nothing was typed over.
    expect((await cells(page, "A1:A12")).flat()).toEqual(Array.from({ length: 12 }, (_, i) => i + 1));
    await page.close();
  });

  test("merged cells that are copied come as values, and that they are not merged is said", async () => {
    const page = await desk();
    const merged = '<mergeCells count="1"><mergeCell ref="A1:B2"/></mergeCells>';
    const sheet = sheetXml('<row r="1"><c r="A1"><v>7</v></c></row>', "", merged);
    await open(page, "book.xlsx", buildBook({ sheets: { Log: sheet } }));
    await isOpen(page, "book.xlsx");
    await goTo(page, "Log", "A1");
    await focusSheet(page);
    await page.keyboard.press("Control+c");
    await page.waitForTimeout(500);
    await goTo(page, "Log", "D4");
    await focusSheet(page);
    await page.keyboard.press("Control+v");
    await page.getByText(/Merged cells stay as they are here/).waitFor();
    expect(await cells(page, "Log!D4:E5")).toEqual([
      [7, ""],
      ["", ""],
    ]);
    // A cell beside is one of its own, and not a part of another.
    await goTo(page, "Log", "E4");
    expect(await selected(page)).toBe("E4");
    await page.close();
  });

  test("what is refused does not look done", async () => {
    const page = await opened();
    const tabs = page.locator("#sheet [data-u-comp=slide-tab-item]");
    const nameBox = page.locator("#sheet input").first();
    const shown = async (): Promise<unknown> => ({
      tabs: await tabs.allInnerTexts(),
      name: await nameBox.inputValue(),
      saved: await saved(page),
    });
    await goTo(page, "Log", "B2");
    const before = await shown();
    const canvas = page.locator("#sheet canvas[id^=univer-sheet-main-canvas]");
    const beginRenaming = async (): Promise<void> => {
      await tabs.first().dblclick();
      // A tab that is pressed for long can be moved: the sheet waits for that.
      await page.waitForTimeout(1000);
    };
    const attempts: readonly (readonly [string, () => Promise<void>])[] = [
      [
        "a tab named otherwise, with Enter",
        async () => {
          await beginRenaming();
          await page.keyboard.type("Another");
          await page.keyboard.press("Enter");
        },
      ],
      [
        "a tab named otherwise, with a click elsewhere",
        async () => {
          await beginRenaming();
          await page.keyboard.press("Backspace");
          await page.keyboard.type("Third");
          await canvas.click({ position: { x: 140, y: 50 } });
        },
      ],
      [
        "a name for cells",
        async () => {
          await nameBox.click();
          await nameBox.fill("Readings");
          await page.keyboard.press("Enter");
        },
      ],
      [
        "bold",
        async () => {
          await focusSheet(page);
          await page.keyboard.press("Control+b");
        },
      ],
    ];
    for (const [what, attempt] of attempts) {
      await attempt();
      await page.getByText(/stay as they are here/).waitFor();
      await page.waitForTimeout(400);
      await goTo(page, "Log", "B2");
      await page.waitForTimeout(200);
      expect([what, await shown()]).toEqual([what, before]);
    }
    await page.close();
  });
});

describe.skipIf(!chromium.present || !libreOffice.present)("in LibreOffice", () => {
  const desk = deskSession();

  /** Every number that a file holds is there, and the same, in the file as LibreOffice opens it. */
  async function expectSameNumbers(bytes: Uint8Array): Promise<number> {
    const [ours, theirs] = await Promise.all([
      openWorkbook(bytes),
      convert(bytes, "xlsx").then(openWorkbook),
    ]);
    let numbers = 0;
    for (const [index, { name, cells: all }] of ours.model.sheets.entries()) {
      const there = new Map(
        theirs.model.sheets[index]?.cells.map(({ row, column, value }) => [`${row},${column}`, value]),
      );
      for (const { row, column, value } of all)
        if (typeof value === "number") {
          numbers++;
          expect([name, row, column, there.get(`${row},${column}`)]).toEqual([
            name,
            row,
            column,
            expect.closeTo(value, 9),
          ]);
        }
    }
    return numbers;
  }

  test("the starter, filled in at the desk, opens with its numbers", async () => {
    const page = await desk("/?file=starter.xlsx");
    await isOpen(page, "starter.xlsx");
    expect(await saved(page)).toEqual(starter());
    for (const [column, texts] of [
      ["D", ["1.050", "1.060"]],
      ["E", ["24.5", "20"]],
      ["F", ["1.010", "1.012"]],
      ["G", ["18", "20"]],
    ] as const)
      await typeDown(page, "Log", `${column}5`, texts);
    await typeDown(page, "Log", "N5", [
      "=GYLE.BLEND(D5:D6,F5:F6)*2",
      "=SUM(GYLE.ABV(D5:D6,F5:F6))",
      '=GYLE.CONVERT(1.050,"SG","P")',
      "=SUM(D5:D6*2)",
    ]);
    await becomes(
      page,
      "Log!H5:N8",
      (all) => typeof all[3]?.[6] === "number" && typeof all[1]?.[4] === "number",
    );
    const bytes = await saved(page);
    const formulas = (await openWorkbook(bytes)).model.sheets[0]?.cells.filter(
      ({ row, column }) => row >= 4 && column >= 7 && column < 12,
    );
    expect(formulas?.every(({ formula }) => formula?.kind === "plain")).toBe(true);
    // Eight readings, ten results beside them, and four formulas.
    expect(await expectSameNumbers(bytes)).toBeGreaterThanOrEqual(22);
    await page.close();
  });
});
