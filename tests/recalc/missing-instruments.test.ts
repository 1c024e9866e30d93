import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { alikeValues } from "../../src/engine/values.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import type { CellValue, WorkbookModel } from "../../src/workbook/model.js";
import { bookOf } from "../support/build-workbook.js";
import { convert } from "../support/libreoffice.js";
import { withInstrumentsMoved } from "../support/other-writers.js";
import { libreOffice } from "../support/tools.js";
import {
  folderWith,
  instrumentsJson,
  read,
  recalc,
  season,
  seasonWithoutInstruments,
  valuesIn,
} from "./command.js";

/** All values of a workbook by place, or those that are usable. */
const values = ({ sheets }: WorkbookModel): Map<string, CellValue> =>
  new Map(
    sheets.flatMap(({ name, cells }) =>
      cells.map(({ row, column, value }) => [`${name}!${row},${column}`, value] as const),
    ),
  );

const numbers = { A1: 1.05, B1: 1.01 } as const;

describe("instruments that are there are found, and nothing changes", () => {
  test.each(["package", "nothing"] as const)("when they hang on %s", async (to) => {
    const moved = withInstrumentsMoved(season(), to);
    const folder = folderWith({ "season.xlsx": moved });
    const { status, out } = await recalc(folder, "season.xlsx");
    expect([status, out]).toEqual([0, expect.stringMatching(/ 0 cells changed, 0 errors, nothing to write/)]);
    expect(read(folder, "season.xlsx")).toEqual(moved);
  });

  test.runIf(libreOffice.present)("when LibreOffice has saved the season", { timeout: 120_000 }, async () => {
    const saved = await convert(season(), "xlsx");
    const folder = folderWith({ "season.xlsx": saved });
    const { status, out } = await recalc(folder, "season.xlsx");
    expect([status, out]).toEqual([
      0,
      expect.stringMatching(/ formulas recalculated, \d+ cells changed, 0 errors/),
    ]);
    // LibreOffice stores fifteen digits; beyond them nothing is another number.
    const [before, after] = [saved, read(folder, "season.xlsx")];
    const [was, is] = [values((await openWorkbook(before)).model), values((await openWorkbook(after)).model)];
    for (const [place, value] of was)
      if (typeof value === "number")
        expect([place, alikeValues(value, is.get(place) as number)]).toEqual([place, true]);
      else expect([place, is.get(place) ?? ""]).toEqual([place, value ?? ""]);
  });
});

describe("without its instruments", () => {
  test("a season keeps every number, says why, and does not end as if all were well", async () => {
    const bare = await seasonWithoutInstruments();
    const folder = folderWith({ "season.xlsx": bare });
    const { status, out } = await recalc(folder, "season.xlsx");
    expect(status).toBe(5);
    expect(out).toMatch(
      / 0 cells changed, 0 errors, \d+ formulas kept for want of an instrument, nothing to write\./,
    );
    expect(out).toMatch(
      /note {2}It names the instrument "Starting glass", which is not in this workbook\. The stored value was left as it was\./,
    );
    expect(out).toMatch(/Add what is missing in the Gylesheet pane, or give it with --instruments\.\n$/);
    expect(read(folder, "season.xlsx")).toEqual(bare);
  });

  test("copies hold the numbers too", async () => {
    const bare = await seasonWithoutInstruments();
    const folder = folderWith({ "season.xlsx": bare });
    const run = await recalc(folder, "season.xlsx", "--values", "--json");
    expect(run.status).toBe(5);
    expect(JSON.parse(run.out)).toMatchObject({
      workbooks: [{ errors: 0, kept: expect.any(Number) as number }],
    });
    const copy = values((await openWorkbook(read(folder, "season-values.xlsx"))).model);
    for (const [place, value] of values((await openWorkbook(bare)).model))
      expect([place, copy.get(place) ?? ""]).toEqual([place, value ?? ""]);
  });

  test("--instruments mends it", async () => {
    const folder = folderWith({
      "season.xlsx": await seasonWithoutInstruments(),
      "mine.json": readFileSync(instrumentsJson, "utf8"),
    });
    const { status, out } = await recalc(folder, "season.xlsx", "--instruments", "mine.json");
    expect([status, out]).toEqual([0, expect.stringMatching(/ 0 cells changed, 0 errors, nothing to write/)]);
  });
});

// However a formula hides that an instrument is missing, what it had is kept; what had nothing shows the error.
const HIDDEN = 'GYLE.HYDROMETER(A1,20,"Lost glass")';
test.each([
  [HIDDEN, 1.0502],
  [`IFERROR(${HIDDEN},"")`, 1.0502],
  [`IFERROR(${HIDDEN},0)`, 1.0502],
  [`IF(${HIDDEN}&gt;1.04,"in spec","too weak")`, "in spec"],
  [`ISNUMBER(${HIDDEN})`, true],
  [`GYLE.ABV(${HIDDEN},B1)`, 5.3],
  [`GYLE.INSTRUMENT("Lost glass","SUMMARY")`, "a glass"],
])("%s keeps %j, and what follows from it keeps to that", async (formula, value) => {
  const stored =
    typeof value === "boolean"
      ? `t="b"><f>${formula}</f><v>1`
      : typeof value === "string"
        ? `t="str"><f>${formula}</f><v>${value}`
        : `><f>${formula}</f><v>${value}`;
  const next = typeof value === "number" ? "C1*2" : 'C1&amp;"!"';
  const row = (cells: string) =>
    `<row r="1"><c r="A1"><v>${numbers.A1}</v></c><c r="B1"><v>${numbers.B1}</v></c>${cells}</row>`;
  const had = bookOf(row(`<c r="C1" ${stored}</v></c><c r="D1"><f>${next}</f></c>`));
  const folder = folderWith({ "had.xlsx": had, "new.xlsx": bookOf(row(`<c r="C1"><f>${formula}</f></c>`)) });
  const run = await recalc(folder, "had.xlsx");
  expect(run.status).toBe(5);
  const at = await valuesIn(read(folder, "had.xlsx"));
  expect(at("S!C1")).toBe(value);
  expect(at("S!D1")).toBe(
    typeof value === "number"
      ? value * 2
      : `${String(value)
          .toUpperCase()
          .replace(/^(?!TRUE).*/, String(value))}!`,
  );
  expect((await recalc(folder, "new.xlsx")).status).toBe(0);
});

test("of a range in one formula, one row without its instrument keeps them all", async () => {
  const rows = [1.05, 1.06].map(
    (og, i) =>
      `<row r="${i + 1}"><c r="A${i + 1}"><v>${og}</v></c><c r="B${i + 1}"><v>20</v></c><c r="C${i + 1}" t="str"><v>${i === 0 ? "" : "Lost glass"}</v></c>${i === 0 ? '<c r="D1" cm="1"><f t="array" ref="D1:D2">GYLE.HYDROMETER(A1:A2,B1:B2,C1:C2)</f><v>1.049</v></c>' : '<c r="D2"><v>1.059</v></c>'}</row>`,
  );
  const folder = folderWith({ "book.xlsx": bookOf(rows.join("")) });
  expect((await recalc(folder, "book.xlsx")).status).toBe(5);
  const at = await valuesIn(read(folder, "book.xlsx"));
  expect([at("S!D1"), at("S!D2")]).toEqual([1.049, 1.059]);
});
