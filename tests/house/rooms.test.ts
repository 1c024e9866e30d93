import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { stronglyConnected } from "../support/strongly-connected.js";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** Source files and the files they import, types included. */
const imports = new Map(
  readdirSync(`${root}src`, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts"))
    .map((file) => {
      const text = readFileSync(`${root}src/${file}`, "utf8");
      const found = [...text.matchAll(/(?:from|^import|import\() ?"(\.[^"]+)\.js"/gm)].map(([, path = ""]) =>
        normalize(join(dirname(file), `${path}.ts`)),
      );
      return [file, found] as const;
    }),
);

const rooms = [...new Set([...imports.keys()].map((file) => dirname(file)))];

test("files are read, and their imports are files", () => {
  expect(imports.size).toBeGreaterThan(400);
  const lost = [...imports.values()].flat().filter((file) => !imports.has(file) && !file.startsWith(".."));
  expect(lost).toEqual([]);
});

test("a circle would be found", () => {
  const graph = new Map([
    ["a", ["b", "d"]],
    ["b", ["c"]],
    ["c", ["a"]],
    ["d", []],
  ]);
  expect(stronglyConnected(graph)).toEqual([["a", "b", "c"]]);
});

test("no files import each other in a circle", () => {
  expect(stronglyConnected(imports)).toEqual([]);
});

// The files that lie in a folder itself are of both kinds: what all its rooms share, and what stands on them.
test("no rooms of a folder import each other in a circle", () => {
  const between = new Map(
    rooms.filter((room) => room.includes("/")).map((room) => [room, new Set<string>()]),
  );
  for (const [file, found] of imports)
    for (const other of found)
      if (dirname(other) !== dirname(file) && between.has(dirname(other)))
        between.get(dirname(file))?.add(dirname(other));
  expect(stronglyConnected(new Map([...between].map(([room, others]) => [room, [...others]])))).toEqual([]);
});

describe("each folder says what lives in it", () => {
  for (const folder of new Set(rooms.map((room) => room.split("/")[0] ?? "")))
    test(folder, () => {
      const said = readFileSync(`${root}src/${folder}/README.md`, "utf8");
      const inside = rooms
        .filter((room) => room.startsWith(`${folder}/`))
        .map((room) => room.slice(folder.length + 1));
      expect([...said.matchAll(/^- `([^`]+)\/`: .+$/gm)].map(([, room]) => room).sort()).toEqual(
        inside.sort(),
      );
    });
});

/** Folders of tests for what is no folder of the source. */
const besides = new Set([
  "mutants",
  "bench", // figures
  "docs", // README and DEVELOPERS.md
  "e2e", // what was built, in a browser
  "fuzz",
  "house", // this
  "native", // native formulas beside other spreadsheets
  "reference", // printed tables
  "support",
  "workbooks", // a workbook that another program saved
]);

test("tests mirror the source", () => {
  const folders = readdirSync(`${root}tests`, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ parentPath, name }) => join(parentPath, name).slice(`${root}tests/`.length))
    .filter((folder) => !besides.has(folder.split("/")[0] ?? ""));
  expect(folders.filter((folder) => !existsSync(`${root}src/${folder}`))).toEqual([]);
});
