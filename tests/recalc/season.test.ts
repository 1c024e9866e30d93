import { describe, expect, test } from "vitest";
import { catalogue } from "../../src/functions/catalogue.js";
import { partNamespace, readPart } from "../../src/instruments/part.js";
import { parseSet } from "../../src/instruments/set.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { readFileSync } from "node:fs";
import { convert } from "../support/libreoffice.js";
import { libreOffice } from "../support/tools.js";
import { fermentation, folderWith, instrumentsJson, read, recalc, season, valuesIn } from "./command.js";

const { model } = await openWorkbook(season());
const sheets = [...model.sheets, ...(await openWorkbook(fermentation())).model.sheets];

describe("the examples", () => {
  test("have every function live in them", () => {
    const formulas = sheets.flatMap(({ cells }) => cells.flatMap(({ formula }) => formula?.text ?? []));
    const missing = catalogue.filter(
      ({ name }) => !formulas.some((text) => text.includes(`_xldudf_GYLE_${name.replaceAll(".", "_")}(`)),
    );
    expect(missing.map(({ name }) => name)).toEqual([]);
  });

  test("have a value beside every formula, and none is an error", () => {
    const bad = sheets.flatMap(({ name, cells }) =>
      cells
        .filter(({ formula, value }) => formula && (value === null || typeof value === "object"))
        .map(({ row, column }) => [name, row, column]),
    );
    expect(bad).toEqual([]);
  });
});

describe("the example fermentation", () => {
  test("is up to date: recalculating changes nothing", async () => {
    const folder = folderWith({ "fermentation.xlsx": fermentation() });
    expect((await recalc(folder, "fermentation.xlsx")).out).toMatch(/ 0 cells changed, 0 errors/);
    expect(read(folder, "fermentation.xlsx")).toEqual(fermentation());
  });

  test("tells its story: stages in order, and a forecast that came true within half a day", async () => {
    const at = await valuesIn(fermentation());
    const days = ["B4", "B5", "B6", "B7"].map((cell) => Number(at(`Story!${cell}`)));
    expect(days).toEqual([...days].sort((a, b) => a - b));
    expect(Math.abs(Number(at("Story!D16")) - Number(at("Story!C11")))).toBeLessThan(0.5);
    expect([at("Story!D14"), at("Story!E14"), at("Story!E21")]).toEqual(["cannot say yet", false, true]);
  });
});

describe("the example season", () => {
  test("has its instruments inside, the same as in the JSON file", async () => {
    const parts = (await openWorkbook(season())).customXml(partNamespace);
    expect(parts).toHaveLength(1);
    expect(readPart(parts[0]?.xml ?? "")).toEqual(parseSet(readFileSync(instrumentsJson, "utf8")));
  });

  test("is up to date: recalculating changes nothing", async () => {
    const folder = folderWith({ "season.xlsx": season() });
    const { status, out } = await recalc(folder, "season.xlsx");
    expect(status).toBe(0);
    expect(out).toMatch(/season\.xlsx: \d+ formulas recalculated, 0 cells changed, 0 errors/);
    expect(read(folder, "season.xlsx")).toEqual(season());
  });

  test("follows its instruments: a check on water that came out lower moves what names that hydrometer, and no more", async () => {
    const set = parseSet(readFileSync(instrumentsJson, "utf8"));
    const instruments = set.instruments.map((each) =>
      each.name === "Finishing glass" ? { ...each, checks: [{ reading: 0.997, true: 1 }] } : each,
    );
    const folder = folderWith({
      "season.xlsx": season(),
      "new.json": JSON.stringify({ ...set, instruments }),
    });
    const { status } = await recalc(folder, "season.xlsx", "--instruments", "new.json", "-o", "out.xlsx");
    expect(status).toBe(0);
    const out = read(folder, "out.xlsx");
    const [was, is] = [await valuesIn(season()), await valuesIn(out)];
    const at = (address: string) => [was(address), is(address)] as [number, number];
    const [finalWas, finalIs] = at("Season!K5");
    expect(finalIs - finalWas).toBeCloseTo(0.001, 4);
    const [abvWas, abvIs] = at("Season!L5");
    expect(abvIs).toBeLessThan(abvWas);
    const [meanWas, meanIs] = at("Season!L16"); // a formula of the spreadsheet's own
    expect(meanIs).toBeLessThan(meanWas);
    for (const address of ["Season!J5", "Beers!E4", "Fermentation!C4"]) {
      const [before, after] = at(address);
      expect(after).toBe(before);
    }
  });
});

describe.runIf(libreOffice.present)("LibreOffice", () => {
  test("opens the example season with its cached values, and without an error cell", async () => {
    const theirs = (await openWorkbook(await convert(season(), "xlsx"))).model;
    for (const [i, sheet] of model.sheets.entries()) {
      const values = new Map(
        theirs.sheets[i]?.cells.map(({ row, column, value }) => [`${row},${column}`, value]),
      );
      for (const { row, column, value } of sheet.cells) {
        const other = values.get(`${row},${column}`) ?? "";
        if (typeof value === "number") expect(other).toBeCloseTo(value, 9);
        else expect(other).toEqual(value ?? "");
      }
    }
  });

  test("calculates the native cells of a copy without our formulas to the same values", async () => {
    const folder = folderWith({ "season.xlsx": season() });
    await recalc(folder, "season.xlsx", "--values");
    const copy = read(folder, "season-values.xlsx");
    const ours = (await openWorkbook(copy)).model.sheets;
    const theirs = (await openWorkbook(await convert(copy, "xlsx", true))).model.sheets;
    let natives = 0;
    for (const [i, { cells }] of ours.entries())
      for (const { row, column, value, formula } of cells) {
        if (!formula) continue;
        const other =
          theirs[i]?.cells.find((each) => each.row === row && each.column === column)?.value ?? "";
        if (typeof value === "number") expect(other).toBeCloseTo(value, 9);
        else expect(other).toBe(value);
        natives += 1;
      }
    expect(natives).toBeGreaterThan(15);
  });
});
