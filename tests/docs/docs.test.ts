import { existsSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { scripts } from "../../package.json";
import { measured } from "./accuracy.js";
import { below, blocks, documents, read, root, standing } from "./blocks.js";

const readme = read("README.md");
const developers = read("DEVELOPERS.md");

test.each([
  ["README.md", "functions"],
  ["DEVELOPERS.md", "dependencies"],
] as const)("%s has the %s as they are; npm run docs makes them anew", (file, name) => {
  expect(standing(read(file), name)).toContain(`\n\n${blocks[name]?.() ?? ""}\n\n`);
});

test("README's accuracy is what is measured, within its printed digits", () => {
  const rows = standing(readme, "accuracy")
    .split("\n")
    .filter((line) => line.startsWith("| "))
    .slice(1)
    .map((line) => line.split(" | ").map((cell) => cell.replace(/^\| | \|$/g, "")));
  const now = measured();
  expect(rows.map(([what, table]) => [what, table])).toEqual(now.map(({ what, table }) => [what, table]));
  now.forEach(({ what, off, unit }, i) => {
    const [number = "", ...words] = (rows[i]?.[2] ?? "").split(" ");
    const lastDigit = 10 ** -(number.split(".")[1]?.length ?? 0);
    expect([what, words.join(" ")]).toEqual([what, unit]);
    expect([what, Math.abs(off - Number(number)) <= 0.51 * lastDigit]).toEqual([what, true]);
  });
});

test("the picture of the house has every folder once, and everything points down in it", () => {
  const picture = /<!-- picture -->\n```\n([^]*?)```/.exec(developers)?.[1] ?? "";
  const lines = picture
    .trimEnd()
    .split("\n")
    .map((line) => line.slice(13).trim().split(/\s+/));
  expect(lines.flat().sort()).toEqual(Object.keys(below).sort());
  const depth = (folder: string): number => lines.findIndex((line) => line.includes(folder));
  for (const [folder, from] of Object.entries(below))
    for (const each of from)
      expect([folder, each, depth(each) > depth(folder)]).toEqual([folder, each, true]);
});

describe.each(documents)("%s", (file) => {
  const text = read(file);

  test("names only commands that there are", () => {
    const named = [...text.matchAll(/npm (?:run )?(?:--silent )?([a-z:]+)/g)].map(([, name = ""]) => name);
    const others = ["install"];
    expect(named.filter((name) => !(name in scripts) && !others.includes(name))).toEqual([]);
  });

  test("leads to files and headings that there are", () => {
    const anchor = (heading: string): string =>
      heading
        .toLowerCase()
        .replace(/[^\w\s-]/g, "")
        .replaceAll(" ", "-");
    const anchors = (of: string): string[] =>
      [...of.matchAll(/^#+ (.*)$/gm)].map(([, heading = ""]) => anchor(heading));
    for (const [, to = ""] of text.matchAll(/\]\(([^)]+)\)/g)) {
      const [path = "", heading] = to.split("#");
      if (path !== "") expect([to, existsSync(new URL(path, root))]).toEqual([to, true]);
      if (heading !== undefined)
        expect([to, anchors(path === "" ? text : read(path)).includes(heading)]).toEqual([to, true]);
    }
  });

  test("names only files of the source that there are", () => {
    const named = [...text.matchAll(/`((?:src|tests|examples)\/[\w./-]+)`/g)].map(([, path = ""]) => path);
    expect(named.filter((path) => !existsSync(new URL(path, root)))).toEqual([]);
  });
});
