// The program that was built does what its source does, which all other tests call: status, both outputs and files.
import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { folderWith, read, recalc, season, seasonWithoutInstruments, spawned } from "./command.js";

test.each([
  ["told its version", {}, ["--version"], 0],
  ["used wrongly", {}, ["--fast"], 2],
  [
    "given workbooks, of which one is none",
    { "season.xlsx": season(), "bad.xlsx": "hello" },
    ["season.xlsx", "bad.xlsx", "-o", "done/", "--table"],
    1,
  ],
  [
    "given a workbook without its instruments",
    { "season.xlsx": await seasonWithoutInstruments() },
    ["season.xlsx", "--values", "--json"],
    5,
  ],
] as const)("%s", async (_, files, args, status) => {
  const [there, here] = [folderWith(files), folderWith(files)];
  const run = spawned(there, ...args);
  expect(run.status).toBe(status);
  expect(run.out + run.errors).not.toBe("");
  expect(await recalc(here, ...args)).toEqual(run);
  const paths = readdirSync(there, { recursive: true, encoding: "utf8" }).filter((path) =>
    path.endsWith(".xlsx"),
  );
  expect(
    readdirSync(here, { recursive: true, encoding: "utf8" }).filter((path) => path.endsWith(".xlsx")),
  ).toEqual(paths);
  for (const path of paths) expect(read(here, path)).toEqual(read(there, path));
});
