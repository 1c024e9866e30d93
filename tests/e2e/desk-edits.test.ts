// Which cells a formula reads is found out once at the desk; edits of cells and of formulas have to be followed all the same.
import { expect, test } from "vitest";
import { buildBook, sheetXml } from "../support/build-workbook.js";
import { chromium } from "../support/tools.js";
import { becomes, cells, deskSession, isOpen, open, type } from "./desk-session.js";

const desk = deskSession();

const formula = (address: string, text: string): string => `<c r="${address}"><f>${text}</f></c>`;

const book = buildBook({
  sheets: {
    Edits: sheetXml(
      `<row r="1"><c r="A1"><v>1</v></c>${formula("B1", "A1+1")}${formula("C1", "SUM(A1:A3)")}</row>` +
        `<row r="2"><c r="A2"><v>2</v></c>${formula("B2", "A2+1")}${formula("C2", "C1*2")}</row>` +
        `<row r="3"><c r="A3"><v>3</v></c>${formula("B3", "INDEX(A1:A3,A3)")}${formula("C3", "SUM(B:B)")}</row>`,
    ),
  },
});

/** What B1:C3 come to, worked out here. */
function expected([a1, a2, a3]: readonly [number, number, number], b1: number): number[][] {
  const [b2, b3] = [a2 + 1, [a1, a2, a3][a3 - 1] ?? NaN];
  const c1 = a1 + a2 + a3;
  return [
    [b1, c1],
    [b2, 2 * c1],
    [b3, b1 + b2 + b3],
  ];
}

test.skipIf(!chromium.present)("edit after edit, every formula follows the cells that it reads", async () => {
  const page = await desk("/");
  await open(page, "edits.xlsx", book);
  await isOpen(page, "edits.xlsx");
  const follows = async (values: readonly [number, number, number], b1: number): Promise<void> => {
    const right = JSON.stringify(expected(values, b1));
    await becomes(page, "Edits!B1:C3", (rows) => JSON.stringify(rows) === right);
  };
  await follows([1, 2, 3], 2);
  await type(page, "Edits", "A1", "10");
  await follows([10, 2, 3], 11);
  await type(page, "Edits", "A3", "1");
  await follows([10, 2, 1], 11);
  // From here on the formula reads another cell, and no longer the one before.
  await type(page, "Edits", "B1", "=A2*100");
  await follows([10, 2, 1], 200);
  await type(page, "Edits", "A2", "5");
  await follows([10, 5, 1], 500);
  await type(page, "Edits", "A1", "20");
  await follows([20, 5, 1], 500);
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  await follows([10, 2, 1], 200);
  await page.keyboard.press("Control+z");
  await follows([10, 2, 1], 11);
  await type(page, "Edits", "A1", "3");
  await follows([3, 2, 1], 4);
  expect(await cells(page, "Edits!C3")).toEqual([[3 + 4 + 3]]);
});
