// The workbook that checks a spreadsheet program passes here, and would notice.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { instrumentsInside } from "../../src/engine/instruments-inside.js";
import { catalogueFunctions } from "../../src/engine/ours/catalogue-functions.js";
import { recalculate } from "../../src/engine/recalculate.js";
import { catalogue } from "../../src/functions/catalogue.js";
import { useInstruments } from "../../src/functions/contract/instruments-port.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { folderWith, read, recalc, valuesIn } from "./command.js";

const selfcheck = (): Uint8Array =>
  readFileSync(fileURLToPath(new URL("../../examples/selfcheck.xlsx", import.meta.url)));

test("has no verdict until it is calculated, and then passes", async () => {
  expect((await valuesIn(selfcheck()))("Check!B2")).toBeNull();
  const folder = folderWith({ "selfcheck.xlsx": selfcheck() });
  await recalc(folder, "selfcheck.xlsx");
  expect((await valuesIn(read(folder, "selfcheck.xlsx")))("Check!B2")).toMatch(/^PASS: all \d+$/);
});

test("has every function in it", async () => {
  const { model } = await openWorkbook(selfcheck());
  const formulas = model.sheets.flatMap(({ cells }) => cells.flatMap(({ formula }) => formula?.text ?? []));
  const missing = catalogue.filter(
    ({ name }) => !formulas.some((text) => text.includes(`_xldudf_GYLE_${name.replaceAll(".", "_")}(`)),
  );
  expect(missing.map(({ name }) => name)).toEqual([]);
});

test("says FAIL where a figure from outside, or the functions alone, come to something else", async () => {
  const workbook = await openWorkbook(selfcheck());
  useInstruments(instrumentsInside(workbook));
  const wrong = new Map([
    ["6 2", 1.06], // from outside, of the first line
    ["7 4", 11.99], // by the functions alone, of the second
  ]);
  const sheets = workbook.model.sheets.map((sheet) => ({
    ...sheet,
    cells: sheet.cells.map((cell) => {
      const value = sheet.name === "Check" ? wrong.get(`${cell.row} ${cell.column}`) : undefined;
      return { ...cell, value: value ?? (cell.formula ? null : cell.value) };
    }),
  }));
  const { changes } = recalculate({ ...workbook.model, sheets }, catalogueFunctions());
  const verdicts = changes.filter(({ sheet, column }) => sheet === "Check" && column === 5);
  expect(verdicts.filter(({ value }) => value !== "PASS").map(({ row, value }) => [row, value])).toEqual([
    [6, "FAIL"],
    [7, "FAIL"],
  ]);
  const whole = changes.find(({ sheet, row, column }) => sheet === "Check" && row === 1 && column === 1);
  expect(whole?.value).toBe(`FAIL: 2 of ${verdicts.length}`);
});
