// Files at the desk: a brewer's own workbook gets new columns and loses nothing; what cannot be opened changes nothing.
import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import type { Cell } from "../../src/workbook/model.js";
import { unpackedLimit } from "../../src/workbook/limits.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { brewLog, valuesIn } from "../recalc/command.js";
import { bookParts, partTexts, sheetXml, zipParts } from "../support/build-workbook.js";
import { cell } from "../support/cells.js";
import { compoundFile } from "../support/compound-file.js";
import { convert } from "../support/libreoffice.js";
import { expectOnlyChanged } from "../support/patched.js";
import { goodParts, noise } from "../support/refusal.js";
import { signed } from "../support/signed.js";
import { spoilEntry } from "../support/spoil-zip.js";
import { chromium, libreOffice } from "../support/tools.js";
import { faults } from "./accessibility.js";
import {
  becomes,
  cells,
  deskSession,
  fillDown,
  focusSheet,
  goTo,
  isOpen,
  open,
  saved,
  type,
} from "./desk-session.js";

const FIRST = 4;
const LAST = 41;
const NEW = 12; // columns from here on are new

/** A small file that says it holds more than is ever unpacked. */
function unpacksToMore(): Uint8Array {
  const file = zipParts(goodParts({ "xl/media/image1.bin": noise(600_000) }));
  return spoilEntry.field(file, "xl/media/image1.bin", "unpacked", unpackedLimit);
}

describe.skipIf(!chromium.present)("files at the desk", () => {
  const desk = deskSession();
  let page: Page;
  let bytes: Uint8Array;

  beforeAll(async () => {
    page = await desk("/");
    page.on("dialog", (dialog) => void dialog.accept());
  });

  test("the page to begin with can be read and worked by everyone", async () => {
    await page.getByRole("button", { name: "Open a file …" }).waitFor();
    expect(await faults(page)).toEqual([]);
  });

  test("what cannot be opened is refused with a reason", async () => {
    const log = brewLog();
    for (const [name, file, reason] of [
      [
        "notes.txt",
        new TextEncoder().encode("OG 1.048"),
        /^notes\.txt is not an \.xlsx workbook but text, such as \.csv; open it/,
      ],
      ["cut.xlsx", log.slice(0, 20_000), /^cut\.xlsx is damaged: its zip directory cannot be read/],
      [
        "secret.xlsx",
        compoundFile("EncryptedPackage"),
        /^secret\.xlsx is encrypted; open it in Excel and save it without/,
      ],
      ["old.xls", compoundFile("Workbook"), /^old\.xls is an old \.xls workbook/],
      ["empty.xlsx", new Uint8Array(), "empty.xlsx is empty."],
      ["large.xlsx", unpacksToMore(), "large.xlsx unpacks to more than 512 MB; refused."],
    ] as const) {
      await open(page, name, file);
      await page.getByRole("alert").getByText(reason).waitFor();
    }
    expect(await page.getByRole("button", { name: "Open a file …" }).isVisible()).toBe(true);
  });

  test("a file that is dropped is taken, and one beyond all measure is not read", async () => {
    await page.evaluate((megabytes) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([new Uint8Array(megabytes * 1024 * 1024)], "heap.xlsx"));
      document.body.dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
    }, 257);
    await page.getByRole("alert").getByText("heap.xlsx is larger than 256 MB.").waitFor();
  });

  test("a brewer's workbook opens as it is", async () => {
    await open(page, "log.xlsx", brewLog());
    await isOpen(page, "log.xlsx");
    expect(await cells(page, "Batches!D4:H4")).toEqual([[1.042, 28.9, expect.anything(), 1.011, 19.8]]);
    expect(await saved(page)).toEqual(brewLog());
  });

  test("a column by one formula over a defined name, and one by filling down", async () => {
    await type(page, "Batches", `M${FIRST}`, `=GYLE.HYDROMETER(OG_seen,E${FIRST}:E${LAST})`);
    const column = await becomes(page, `Batches!M${FIRST}:M${LAST}`, ([row]) => row?.[0] !== "");
    expect(column[0]).toEqual([cell("HYDROMETER", 1.042, 28.9)]);
    expect(column[9 - FIRST]).toEqual([cell("HYDROMETER", 1.078, 25.2)]);
    await type(page, "Batches", `N${FIRST}`, `=GYLE.HYDROMETER(G${FIRST},H${FIRST})`);
    await fillDown(page, "Batches", `N${FIRST}`, LAST);
    const filled = await becomes(page, `Batches!N${FIRST}:N${LAST}`, (rows) => rows[1]?.[0] !== "");
    expect(filled[0]).toEqual([cell("HYDROMETER", 1.011, 19.8)]);
    expect(filled[22 - FIRST]).toEqual([cell("HYDROMETER", 1.018, 19.6)]);
    // No finished gravity yet, and a line left blank.
    for (const row of [16, 29, 40, 41]) expect(filled[row - FIRST]).toEqual([""]);
  });

  test("alcohol by filling down and attenuation by one formula follow from them", async () => {
    await type(page, "Batches", `O${FIRST}`, `=GYLE.ABV(M${FIRST},N${FIRST})`);
    await fillDown(page, "Batches", `O${FIRST}`, LAST);
    const both = [`M${FIRST}:M${LAST}`, `N${FIRST}:N${LAST}`].join(",");
    await type(page, "Batches", `P${FIRST}`, `=GYLE.ATTENUATION.APPARENT(${both})`);
    const rows = await becomes(
      page,
      `Batches!M${FIRST}:P${LAST}`,
      ([, second, third]) => second?.[2] !== "" && third?.[3] !== "",
    );
    let numbers = 0;
    for (const [original, final, alcohol, attenuation] of rows)
      if (typeof original === "number" && typeof final === "number") {
        numbers++;
        expect(alcohol).toBe(cell("ABV", original, final));
        expect(attenuation).toBe(cell("ATTENUATION.APPARENT", original, final));
      } else
        for (const value of [alcohol, attenuation]) expect(value === "" || value === "#VALUE!").toBe(true);
    expect(numbers).toBeGreaterThan(25);
  });

  test("comma text and n/a show what is wrong with them, each in its place", async () => {
    expect(await cells(page, "Batches!M13")).toEqual([["#VALUE!"]]);
    expect(await cells(page, "Batches!M22")).toEqual([["#VALUE!"]]);
    const status = page.locator("#status");
    await goTo(page, "Batches", "M13");
    await status.getByText(/The sample temperature is "n\/a": text, not a number/).waitFor();
    await goTo(page, "Batches", "M22");
    await status
      .getByText(/The reading is "1,052": text, not a number\. If the comma is a decimal comma/)
      .waitFor();
  });

  test("a file that is refused leaves the open workbook as it is", async () => {
    await open(page, "cut.xlsx", brewLog().slice(0, 20_000));
    await page
      .getByRole("alert")
      .getByText(/^cut\.xlsx is damaged/)
      .waitFor();
    await isOpen(page, "log.xlsx");
    expect(await cells(page, "Batches!M4")).toEqual([[cell("HYDROMETER", 1.042, 28.9)]]);
    await page.getByText("not saved", { exact: true }).waitFor();
  });

  test("what could not be saved is refused, with a sentence", async () => {
    await goTo(page, "Batches", "A5");
    await focusSheet(page);
    await page.keyboard.press("Control+b");
    await page.getByText(/^Formats stay as they are here/).waitFor();
  });

  test("the file that is saved has the new cells, what they need, and nothing else that is new", async () => {
    bytes = await saved(page);
    const changed = ["xl/worksheets/sheet1.xml", "[Content_Types].xml", "xl/_rels/workbook.xml.rels"];
    expectOnlyChanged(brewLog(), bytes, changed, ["xl/metadata.xml"]);
    const sheets = async (file: Uint8Array) => (await openWorkbook(file)).model.sheets;
    const [before, after] = [await sheets(brewLog()), await sheets(bytes)];
    const old = (all: readonly Cell[] = []) => all.filter(({ column }) => column < NEW);
    expect(old(after[0]?.cells)).toEqual(before[0]?.cells);
    expect(after.slice(1)).toEqual(before.slice(1));
    const at = (row: number, column: number) =>
      after[0]?.cells.find((each) => each.row === row - 1 && each.column === column)?.formula;
    expect(at(FIRST, NEW)).toEqual({
      text: `_xldudf_GYLE_HYDROMETER(OG_seen,E${FIRST}:E${LAST})`,
      kind: "spill",
      area: { top: FIRST - 1, left: NEW, bottom: LAST - 1, right: NEW },
    });
    expect(at(LAST, NEW + 1)).toEqual({ text: `_xldudf_GYLE_HYDROMETER(G${LAST},H${LAST})`, kind: "plain" });
    expect(at(LAST, NEW + 2)).toEqual({ text: `_xldudf_GYLE_ABV(M${LAST},N${LAST})`, kind: "plain" });
    expect(at(FIRST, NEW + 3)).toMatchObject({
      text: `_xldudf_GYLE_ATTENUATION_APPARENT(M${FIRST}:M${LAST},N${FIRST}:N${LAST})`,
      kind: "spill",
    });
    // The elements of all cells that were there are the same to the byte.
    const cellsOf = (file: Uint8Array) =>
      (partTexts(file).get("xl/worksheets/sheet1.xml") ?? "").match(/<c r="[A-L]\d+".*?(?:<\/c>|\/>)/g);
    expect(cellsOf(bytes)).toEqual(cellsOf(brewLog()));
  });

  test.skipIf(!libreOffice.present)(
    "LibreOffice opens it, and its own formulas come out the same",
    async () => {
      const opened = await valuesIn(await convert(bytes, "xlsx", true));
      const original = (await openWorkbook(brewLog())).model;
      for (const { name, cells: all } of original.sheets)
        for (const { row, column, value, formula } of all)
          if (formula && typeof value === "number") {
            const letters = String.fromCharCode(65 + column);
            expect(opened(`${name}!${letters}${row + 1}`)).toBeCloseTo(value, 9);
          }
    },
  );

  test("the page around the sheet can be read and worked by everyone", async () => {
    // Univer hangs two lists of notifications with one label into the page.
    const notifications = "section[aria-label^=Notifications]";
    expect(await faults(page, "html", ["#sheet", notifications])).toEqual([]);
    // What Univer's own controls lack, which cannot be helped from outside.
    const rules = (await faults(page, "#sheet")).map((fault) => fault.split(":")[0]);
    expect([...new Set(rules)].sort()).toEqual([
      "aria-allowed-attr",
      "aria-command-name",
      "aria-roles",
      "button-name",
      "label",
      "landmark-unique",
      "tabindex",
    ]);
  });
});

describe.skipIf(!chromium.present)("a signed workbook", () => {
  const desk = deskSession();

  test("says that its signature will be void, and when it is", async () => {
    const page = await desk("/");
    page.on("dialog", (dialog) => void dialog.accept());
    const book = signed(bookParts({ sheets: { S: sheetXml('<row r="1"><c r="A1"><v>1</v></c></row>') } }));
    await open(page, "signed.xlsx", book);
    await isOpen(page, "signed.xlsx");
    const notices = page.locator("#notices");
    await notices
      .getByText(/^signed\.xlsx is signed, and the signature will be void once you save changes\./)
      .waitFor();
    expect(await saved(page)).toEqual(book);
    await notices.getByText("signed.xlsx is among your downloads.", { exact: true }).waitFor();
    await type(page, "S", "A1", "2");
    await becomes(page, "S!A1", ([row]) => row?.[0] === 2);
    await saved(page);
    await notices.getByText(/among your downloads\. Its signature is void: have it signed anew\.$/).waitFor();
  });
});
