// Formulas typed, pasted and filled at the desk: what is stored is what was typed.
import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { anyFormulas, type AnyFormula } from "../support/any-formula.js";
import { buildBook, sheetXml } from "../support/build-workbook.js";
import { chromium } from "../support/tools.js";
import {
  becomes,
  clipboard,
  deskSession,
  fillDown,
  focusSheet,
  goTo,
  isOpen,
  open,
  paste,
  savedCells,
  selected,
  type,
  typeDown,
} from "./desk-session.js";

const SEED = 20261128;
const data =
  '<row r="1"><c r="A1"><v>1.05</v></c><c r="B1"><v>1.01</v></c><c r="C1" t="inlineStr"><is><t>SG</t></is></c></row>';
const book = (): Uint8Array =>
  buildBook({ sheets: { Log: sheetXml(data), "Brew day": sheetXml(data), "It's": sheetXml(data) } });

describe.skipIf(!chromium.present)("formulas at the desk", () => {
  const desk = deskSession();
  let page: Page;
  beforeAll(async () => {
    page = await desk("/", "", clipboard);
    page.on("dialog", (dialog) => void dialog.accept());
    await open(page, "book.xlsx", book());
    await isOpen(page, "book.xlsx");
  });

  // Five hundred in all, each column beside the last: what an array fills is typed over. Keys take their time, so all but the
  // first hundred are pasted as text, which is read as if typed. `npm run fuzz -- --typing` types every one.
  const byKeys = process.env["TYPING"] === "all" ? ["K", "L", "M", "N", "O"] : ["K"];
  test.each(["K", "L", "M", "N", "O"])(
    "a hundred of all kinds are stored as they were typed, in %s",
    async (column) => {
      const formulas = anyFormulas(SEED + column.charCodeAt(0), 100);
      const typed = formulas.map((formula) => `=${formula.typed}`);
      if (byKeys.includes(column)) await typeDown(page, "Log", `${column}1`, typed);
      else await paste(page, "Log", `${column}1`, typed.join("\n"));
      await becomes(page, `Log!${column}100`, ([row]) => row?.[0] !== "");
      const at = await savedCells(page);
      expect(formulas.map((_, i) => at(`${column}${i + 1}`)?.formula?.text)).toEqual(
        formulas.map(({ stored }) => stored(0)),
      );
    },
  );

  test("pasted, as lines of text and as a table", async () => {
    const formulas = anyFormulas(SEED + 1, 60);
    const lines = (some: readonly AnyFormula[]): string => some.map(({ typed }) => `=${typed}`).join("\n");
    await paste(page, "Log", "Q1", lines(formulas.slice(0, 30)));
    const escaped = (text: string): string => text.replace(/[&<>]/g, (sign) => `&#${sign.charCodeAt(0)};`);
    const rows = formulas.slice(30).map(({ typed }) => `<tr><td>${escaped(`=${typed}`)}</td></tr>`);
    await paste(page, "Log", "R1", "", `<table>${rows.join("")}</table>`);
    const at = await savedCells(page);
    const bare = (text: string | undefined): string | undefined => text?.trim().replace(/ +/g, " ");
    expect(formulas.slice(0, 30).map((_, i) => at(`Q${i + 1}`)?.formula?.text)).toEqual(
      formulas.slice(0, 30).map(({ stored }) => stored(0)),
    );
    // A page makes one blank of several.
    expect(formulas.slice(30).map((_, i) => bare(at(`R${i + 1}`)?.formula?.text))).toEqual(
      formulas.slice(30).map(({ stored }) => bare(stored(0))),
    );
  });

  test("filled down and copied, with their references moved and nothing else", async () => {
    const formulas = anyFormulas(SEED + 2, 6);
    for (const [i, { typed }] of formulas.entries()) {
      const column = String.fromCharCode(83 + i);
      await type(page, "Log", `${column}1`, `=${typed}`);
      await fillDown(page, "Log", `${column}1`, 4);
    }
    await page.waitForTimeout(500);
    const at = await savedCells(page);
    for (const [i, { stored }] of formulas.entries())
      for (const row of [1, 2, 3, 4])
        expect(at(`${String.fromCharCode(83 + i)}${row}`)?.formula?.text).toBe(stored(row - 1));
  });

  test("of which a cell is cut and put elsewhere", async () => {
    await type(page, "Log", "Z1", `=d50&"1.50"&1.50 & " a ""b""" & 'It''s'!A1`);
    await goTo(page, "Log", "D50");
    await focusSheet(page);
    await page.keyboard.press("Control+x");
    await page.waitForTimeout(1000);
    await goTo(page, "Log", "D60");
    await focusSheet(page);
    await page.keyboard.press("Control+v");
    await page.waitForTimeout(600);
    expect((await savedCells(page))("Z1")?.formula?.text).toBe(`D60&"1.50"&1.50 & " a ""b""" & 'It''s'!A1`);
  });

  test("results take the place of nothing that is being typed, or was", async () => {
    await typeDown(page, "Log", "I1", ["2", "=I1*2"]);
    await becomes(page, "Log!I2", ([row]) => row?.[0] === 4);
    // The cell below is given its new result while another formula is typed into it.
    await type(page, "Log", "I1", "5");
    await page.keyboard.type("=I1*3");
    await page.waitForTimeout(1500);
    await page.keyboard.type("+1");
    await page.keyboard.press("Enter");
    await becomes(page, "Log!I2", ([row]) => row?.[0] === 16);
    // What a formula had filled a cell with is typed into it.
    await type(page, "Log", "F1", "={1;2;3}");
    await becomes(page, "Log!F3", ([row]) => row?.[0] === 3);
    await type(page, "Log", "F2", "2");
    await becomes(page, "Log!F1", ([row]) => row?.[0] === "#SPILL!");
    const at = await savedCells(page);
    expect([at("I2")?.formula?.text, at("F1")?.formula?.text, at("F2")?.value]).toEqual([
      "I1*3+1",
      "{1;2;3}",
      2,
    ]);
  });

  test("typed into the formula bar, and into a cell that is edited", async () => {
    const bar = page.locator("[data-u-comp=formula-bar] canvas").first();
    const formula = `=IF(1.50>1,"it's ""so""",'It''s'!a1)&{"1,0";2.50}`;
    const stored = `IF(1.50>1,"it's ""so""",'It''s'!A1)&{"1,0";2.50}`;
    // With Enter and Tab, and with a click elsewhere.
    for (const [address, end] of [
      ["G1", "Enter"],
      ["G11", "Tab"],
      ["G21", "click"],
    ] as const) {
      await goTo(page, "Log", address);
      await bar.click();
      await page.keyboard.type(formula);
      if (end === "click") await goTo(page, "Log", "I30");
      else await page.keyboard.press(end);
      await page.waitForTimeout(100);
    }
    expect(await selected(page)).toBe("I30");
    // F2 goes on with what is there, at its end.
    await type(page, "Log", "H1", '="a"&1.50');
    await goTo(page, "Log", "H1");
    await focusSheet(page);
    await page.keyboard.press("F2");
    await page.keyboard.type('&"b ""c"""');
    await page.keyboard.press("Enter");
    // And is given up by Escape.
    await type(page, "Log", "H2", "=1.050");
    await goTo(page, "Log", "H2");
    await focusSheet(page);
    await page.keyboard.press("F2");
    await page.keyboard.type("+1");
    await page.keyboard.press("Escape");
    // Half of a formula, and a click on another cell: a bracket is open, so the click would pick a cell; a whole one is stored.
    await goTo(page, "Log", "H3");
    await focusSheet(page);
    await page.keyboard.type("=007*1.50");
    await page.locator("canvas[id^=univer-sheet-main-canvas]").click({ position: { x: 140, y: 250 } });
    await page.waitForTimeout(100);
    const at = await savedCells(page);
    const texts = ["G1", "G11", "G21", "H1", "H2", "H3"].map((address) => at(address)?.formula?.text);
    expect(texts).toEqual([stored, stored, stored, '"a"&1.50&"b ""c"""', "1.050", "007*1.50"]);
  });

  test("numbers joined to text are as Excel has them, and a text after a number is its own", async () => {
    await typeDown(page, "Log", "E1", [
      '="a"&1.50&"b"',
      '=if(1.50>1,"yes","no")',
      '=GYLE.CONVERT(1.050,"SG","P")',
      "=0.50>1",
    ]);
    const [[joined], [yes], [plato], [more]] = (await becomes(
      page,
      "Log!E1:E4",
      (rows) => rows[3]?.[0] !== "",
    )) as [[unknown], [unknown], [unknown], [unknown]];
    expect([joined, yes, more]).toEqual(["a1.5b", "yes", false]);
    // NBS Circular C440, Table 114: 1.0500 is 12.39 °P.
    expect(plato).toBeCloseTo(12.39, 2);
  });
});
