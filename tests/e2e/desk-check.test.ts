// A damaged workbook is put right at the desk.
import { beforeAll, describe, expect, test } from "vitest";
import type { FrameLocator, Page } from "playwright-core";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { buildBook, sheetXml } from "../support/build-workbook.js";
import { expectOnlyChanged } from "../support/patched.js";
import { chromium } from "../support/tools.js";
import { cells, deskSession, isOpen, open, saved } from "./desk-session.js";

const cool = (row: number): string =>
  `<row r="${row}"><c r="A${row}"><v>1.05</v></c><c r="B${row}"><v>19</v></c>` +
  `<c r="C${row}"><f>_xldudf_GYLE_HYDROMETER(A${row},B${row})</f><v>1.05</v></c></row>`;

const damaged = buildBook({
  sheets: {
    Log: sheetXml(
      '<row r="1"><c r="A1"><v>1.05</v></c><c r="B1"><v>68</v></c>' +
        '<c r="C1" t="e"><f>GYLE.HYDROMETER(A1,B1)</f><v>#NAME?</v></c></row>' +
        '<row r="2"><c r="C2"><f>_xldudf_GYLE_ABV(1.05,1.01)</f><v>5</v></c></row>' +
        // What the others of a column are says what one of them should be.
        [3, 4, 5].map(cool).join(""),
    ),
  },
});

describe.skipIf(!chromium.present)("a damaged workbook at the desk", () => {
  const desk = deskSession();
  let page: Page;
  let pane: FrameLocator;

  beforeAll(async () => {
    page = await desk("/");
    page.on("dialog", (dialog) => void dialog.accept());
    pane = page.frameLocator("#pane");
    await open(page, "damaged.xlsx", damaged);
    await isOpen(page, "damaged.xlsx");
  });

  test("is checked, and what is found is led to", async () => {
    await pane.getByRole("button", { name: "Workbook", exact: true }).click();
    await pane.getByRole("button", { name: /^Check the workbook/ }).click();
    await pane.getByRole("button", { name: "Check", exact: true }).click();
    await pane.getByRole("heading", { name: "2 found" }).waitFor();
    await pane.getByText(/look like °F where °C belongs: 68/).waitFor();
    await pane.getByRole("button", { name: "Log B1" }).click();
    const selected = await page.evaluate(async () => (await window.gylesheetHost.selection.read()).reference);
    expect(selected).toBe("B1");
  });

  test("is repaired, and saved with formulas that a spreadsheet program finds", async () => {
    await pane.getByRole("button", { name: "Repair what shows #NAME?: 1 formula" }).click();
    await pane.getByRole("heading", { name: "1 found" }).waitFor();
    const bytes = await saved(page);
    expectOnlyChanged(damaged, bytes, ["xl/worksheets/sheet1.xml"]);
    const [sheet] = (await openWorkbook(bytes)).model.sheets;
    const repaired = sheet?.cells.find(({ row, column }) => row === 0 && column === 2);
    expect(repaired?.formula).toEqual({ text: "_xldudf_GYLE_HYDROMETER(A1,B1)", kind: "plain" });
    expect([[repaired?.value]]).toEqual(await cells(page, "Log!C1"));
  });
});
