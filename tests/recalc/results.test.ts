import { readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { bookOf, partTexts } from "../support/build-workbook.js";
import { folderWith, read, recalc, season, valuesIn } from "./command.js";

const formula = (address: string, text: string): string => `<c r="${address}"><f>${text}</f></c>`;
const text = (address: string, value: string): string =>
  `<c r="${address}" t="inlineStr"><is><t>${value}</t></is></c>`;

const bad = bookOf(
  `<row r="1">${text("A1", "_x001B_[31mred_x0007_")}${formula("B1", "GYLE.ABV(A1,1.01)")}</row>`,
);

describe("the summary", () => {
  test("names each error with sheet, address and message, and shows control characters to nobody", async () => {
    const folder = folderWith({ "bad.xlsx": bad });
    const { status, out } = await recalc(folder, "bad.xlsx");
    expect(status).toBe(0);
    expect(out).toMatch(/bad\.xlsx: 1 formula recalculated, 1 cell changed, 1 error\./);
    expect(out).toMatch(
      / {2}\S+!B1 {2}#VALUE! {2}The original gravity is " ?\[31mred ?": text, not a number/,
    );
    expect(out).not.toMatch(/[\u001b\u0007]/);
  });

  test("goes with status 3 under --strict when a cell shows an error", async () => {
    const folder = folderWith({ "bad.xlsx": bad, "season.xlsx": season() });
    expect((await recalc(folder, "bad.xlsx", "--strict")).status).toBe(3);
    expect((await recalc(folder, "season.xlsx", "--strict")).status).toBe(0);
  });

  test("comes without a progress bar where there is no terminal", async () => {
    expect((await recalc(folderWith({ "bad.xlsx": bad }), "bad.xlsx")).errors).toBe("");
  });

  test("may come with the results as a table", async () => {
    const { out } = await recalc(folderWith({ "season.xlsx": season() }), "season.xlsx", "--table");
    expect(out).toMatch(/Batch +Beer +True OG +True FG +% vol +Apparent att\. % +Real att\. %/);
    expect(out).toMatch(/201 +Lantern Pale +1\.0\d+ +1\.01\d+ +4\.\d+/);
  });
});

test("nothing is left beside a file that was replaced", async () => {
  const folder = folderWith({ "bad.xlsx": bad });
  await recalc(folder, "bad.xlsx");
  expect(readdirSync(folder)).toEqual(["bad.xlsx"]);
  expect((await valuesIn(read(folder, "bad.xlsx")))("S!B1")).toEqual({
    error: "#VALUE!",
  });
});

describe("a copy for a partner without the add-in", async () => {
  const folder = folderWith({ "season.xlsx": season(), "bad.xlsx": bad });
  const { status, out } = await recalc(folder, "season.xlsx", "bad.xlsx", "--values");
  const copy = read(folder, "season-values.xlsx");
  const parts = partTexts(copy);

  test("leaves the original alone", () => {
    expect(status).toBe(0);
    expect(read(folder, "season.xlsx")).toEqual(season());
  });

  test("has our values and none of our formulas; formulas of the spreadsheet stay", async () => {
    const before = (await openWorkbook(season())).model.sheets;
    const after = (await openWorkbook(copy)).model.sheets;
    expect(after.map(({ name }) => name)).toEqual([...before.map(({ name }) => name), "Hand-over"]);
    for (const [i, { cells }] of after.slice(0, -1).entries()) {
      expect(cells.map(({ value }) => value)).toEqual(before[i]?.cells.map(({ value }) => value));
      expect(cells.filter(({ formula: f }) => f?.text.includes("GYLE"))).toEqual([]);
    }
    expect([...parts.values()].some((part) => part.includes("<f>AVERAGE("))).toBe(true);
  });

  test("comes with how many formulas became values, for people and for machines", async () => {
    const { sheets } = (await openWorkbook(season())).model;
    const ours = sheets.flatMap(({ cells }) => cells.filter(({ formula: f }) => f?.text.includes("GYLE")));
    expect(out).toMatch(new RegExp(`season-values\\.xlsx: .* ${ours.length} formulas as values\\.`));
    expect(out).toMatch(/bad-values\.xlsx: .*, 1 error, 1 formula as values\./);
    const run = await recalc(folder, "season.xlsx", "bad.xlsx", "gone.xlsx", "--values", "--json");
    expect((JSON.parse(run.out) as { workbooks: unknown }).workbooks).toEqual([
      {
        workbook: "season.xlsx",
        copy: "season-values.xlsx",
        formulas: ours.length,
        live: 0,
        values: ours.length,
        errors: 0,
        kept: 0,
      },
      { workbook: "bad.xlsx", copy: "bad-values.xlsx", formulas: 1, live: 0, values: 1, errors: 1, kept: 0 },
      { workbook: "gone.xlsx", refused: "does not exist" },
    ]);
  });

  test("has a note with the formula and the instrument on each such cell", () => {
    const notes = [...parts]
      .filter(([name]) => name.startsWith("xl/comments"))
      .map(([, part]) => part)
      .join("");
    expect(notes).toContain(
      "=IF(D5=&quot;&quot;,&quot;&quot;,GYLE.HYDROMETER(D5,E5,F5))".replaceAll("&quot;", '"'),
    );
    expect(notes).toContain(
      "Starting glass: hydrometer, SG scale true at 20 °C, graduated 1.020 to 1.100, read at the level surface.",
    );
    expect(notes).toContain(
      "Bobber: floating hydrometer, SG scale, calibrated by 1.0105 → 1.012, 1.050 → 1.0505.",
    );
  });

  test("has a sheet with the date, the instruments with how many cells name them, and the cautions", async () => {
    const cells = (await openWorkbook(copy)).model.sheets.at(-1)?.cells ?? [];
    const line = (label: string) => {
      const found = cells.find(({ column, value }) => column === 0 && value === label);
      return cells.filter(({ row, column }) => row === found?.row && column > 0).map(({ value }) => value);
    };
    expect(line("Handed over")).toEqual([expect.stringMatching(/^20\d\d-\d\d-\d\d$/)]);
    const glass = "hydrometer, SG scale true at 20 °C, graduated 1.020 to 1.100, read at the level surface";
    expect(line("Starting glass")).toEqual([expect.any(Number), glass]);
    expect(line("Starting glass")[0]).toBeGreaterThan(0);
    expect(line("ABV").at(-1)).toMatch(/^Not for a label or a duty return as it stands/);
  });

  test("tells in the note why a cell shows an error", () => {
    const notes = [...partTexts(read(folder, "bad-values.xlsx"))].map(([, part]) => part).join("");
    expect(notes).toContain("#VALUE! The original gravity is");
  });
});

test("a copy as it is keeps every formula, and has a sheet about getting the add-in", async () => {
  const folder = folderWith({ "season.xlsx": season() });
  expect((await recalc(folder, "season.xlsx", "--share")).status).toBe(0);
  expect(read(folder, "season.xlsx")).toEqual(season());
  const before = (await openWorkbook(season())).model.sheets;
  const after = (await openWorkbook(read(folder, "season-shared.xlsx"))).model.sheets;
  expect(after.slice(0, -1)).toEqual(before);
  expect(after.at(-1)?.name).toBe("Getting the add-in");
  expect(after.at(-1)?.cells.map(({ value }) => value)).toContainEqual(
    expect.stringMatching(/manifest\.xml/),
  );
});
