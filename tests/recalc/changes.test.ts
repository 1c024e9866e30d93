import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { parse } from "csv-parse/sync";
import { expect, test } from "vitest";
import { folderWith, instrumentsJson, read, recalc, season, valuesIn } from "./command.js";

interface Stored {
  readonly instruments: readonly { readonly name: string; readonly checks?: unknown }[];
}

/** The season's instruments, with the starting glass found two points low. */
function twoPointsOff(): string {
  const set = JSON.parse(readFileSync(instrumentsJson, "utf8")) as Stored;
  const instruments = set.instruments.map((each) =>
    each.name === "Starting glass" ? { ...each, checks: [{ reading: 1.048, true: 1.05 }] } : each,
  );
  return JSON.stringify({ ...set, instruments });
}

const rowsOf = (folder: string, name: string): Record<string, string>[] =>
  parse(readFileSync(join(folder, name), "utf8"), { columns: true });

test("what changed is told with its value before and after, and whether it is more than it is sure to", async () => {
  const folder = folderWith({ "season.xlsx": season(), "off.json": twoPointsOff() });
  const run = await recalc(folder, "season.xlsx", "--instruments", "off.json", "--changes", "what.csv");
  expect([run.status, run.errors]).toEqual([0, ""]);
  const rows = rowsOf(folder, "what.csv");
  const [before, after] = [await valuesIn(season()), await valuesIn(read(folder, "season.xlsx"))];
  for (const row of rows) {
    const address = `${row["Sheet"] ?? ""}!${row["Cell"] ?? ""}`;
    expect(Number(row["Before"])).toBe(before(address));
    expect(Number(row["After"])).toBe(after(address));
  }
  const hydrometer = rows.filter((row) => row["Function"] === "HYDROMETER");
  expect(hydrometer.length).toBeGreaterThan(5);
  for (const row of hydrometer) {
    expect(Number(row["Difference"])).toBeCloseTo(0.002, 4);
    expect(row["Changed by"]).toBe(
      Number(row["Difference"]) > Number(row["Sure to ±"]) ? "more than sure to" : "less than sure to",
    );
  }
  // Of alcohol it has to be known how sure the gravities are.
  expect(rows.filter((row) => row["Function"] === "ABV").map((row) => row["Changed by"])).toContain(
    "not known",
  );
});

test("nothing changed is a table without lines, and several workbooks go into one", async () => {
  const folder = folderWith({ "a.xlsx": season(), "b.xlsx": season(), "off.json": twoPointsOff() });
  expect((await recalc(folder, "a.xlsx", "--changes", "none.csv")).status).toBe(0);
  expect(rowsOf(folder, "none.csv")).toEqual([]);
  const run = await recalc(
    folder,
    "a.xlsx",
    "b.xlsx",
    "--instruments",
    "off.json",
    "--changes",
    "both.csv",
    "-o",
    "out/",
  );
  expect(run.status).toBe(0);
  expect([...new Set(rowsOf(folder, "both.csv").map((row) => row["Workbook"]))]).toEqual([
    "a.xlsx",
    "b.xlsx",
  ]);
});

test.each(["season.xlsx/what.csv", "nowhere/what.csv"])(
  "a table that cannot be written, such as %s, is a refusal before any workbook is touched",
  async (table) => {
    const folder = folderWith({ "season.xlsx": season(), "off.json": twoPointsOff() });
    const run = await recalc(folder, "season.xlsx", "--instruments", "off.json", "--changes", table);
    expect([run.status, run.out, run.errors]).toEqual([
      1,
      "",
      `gylesheet-recalc: ${table} was not written: there is no folder ${dirname(table)}.\n`,
    ]);
    expect(readdirSync(folder).sort()).toEqual(["off.json", "season.xlsx"]);
    expect(read(folder, "season.xlsx")).toEqual(season());
  },
);

test("a table never takes the place of a workbook or its result", async () => {
  const files = { "season.xlsx": season(), "log.csv": season(), "off.json": twoPointsOff() };
  const folder = folderWith(files);
  const refused = async (...args: readonly string[]): Promise<string> => {
    const run = await recalc(folder, "--instruments", "off.json", ...args);
    expect([run.status, run.out]).toEqual([2, ""]);
    expect(readdirSync(folder).sort()).toEqual(Object.keys(files).sort());
    for (const name of ["season.xlsx", "log.csv"]) expect(read(folder, name)).toEqual(season());
    return run.errors;
  };
  expect(await refused("season.xlsx", "--changes", "season.xlsx")).toMatch(
    /--changes season\.xlsx is no table: it has to end with \.csv\. Was its name left out\?/,
  );
  const taken = /would overwrite log\.csv/;
  expect(await refused("log.csv", "--changes", "./log.csv")).toMatch(taken);
  expect(await refused("log.csv", "-o", "out.xlsx", "--changes", "log.csv")).toMatch(taken);
  expect(await refused("season.xlsx", "-o", "out.csv", "--changes", "out.csv")).toMatch(
    /would overwrite out\.csv/,
  );
});

test("a table of before stays where nothing could be calculated by the instruments that were given", async () => {
  const folder = folderWith({ "season.xlsx": season(), "bad.json": "{", "what.csv": "of last year" });
  const run = await recalc(folder, "season.xlsx", "--instruments", "bad.json", "--changes", "what.csv");
  expect(run.status).toBe(1);
  expect(new TextDecoder().decode(read(folder, "what.csv"))).toBe("of last year");
});
