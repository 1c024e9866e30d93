import { fromCol } from "@borgar/fx";
import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { partTexts } from "../support/build-workbook.js";
import { convert } from "../support/libreoffice.js";
import { patchBook } from "../support/patched.js";
import { libreOffice } from "../support/tools.js";
import { folderWith, read, recalc, season, valuesIn } from "./command.js";

const folder = folderWith({ "season.xlsx": season() });
const { status, out } = await recalc(folder, "season.xlsx", "--live");
const copy = read(folder, "season-live.xlsx");

const change = (address: string, value: number) => {
  const [, letters = "", digits = ""] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  return { sheet: "Season", row: Number(digits) - 1, column: fromCol(letters), value };
};
/** Other readings, as a partner might put them in. */
const readings = [change("D5", 1.0525), change("E5", 27.5), change("G5", 1010), change("D6", 1048.5)];

describe("a live copy for a partner without the add-in", () => {
  test("leaves the original alone, and holds the same values", async () => {
    expect(status).toBe(0);
    expect(read(folder, "season.xlsx")).toEqual(season());
    const before = (await openWorkbook(season())).model.sheets;
    const after = (await openWorkbook(copy)).model.sheets;
    for (const [i, { cells }] of before.entries())
      expect(after[i]?.cells.map(({ value }) => value)).toEqual(cells.map(({ value }) => value));
  });

  test("has no formula of ours left, none that is too long, and a sheet that says what it is", async () => {
    const { sheets } = (await openWorkbook(copy)).model;
    const texts = sheets.flatMap(({ cells }) => cells.flatMap(({ formula }) => formula?.text ?? []));
    expect(texts.filter((text) => /GYLE[._]|LET\(|LAMBDA\(/i.test(text))).toEqual([]);
    expect(Math.max(...texts.map((text) => text.length))).toBeLessThanOrEqual(8192);
    expect(sheets.at(-1)?.cells.map(({ value }) => value)).toContainEqual(
      expect.stringMatching(/^Live without the add-in/),
    );
  });

  test("says in each note how far off the formula is, or why there is a value", () => {
    const notes = [...partTexts(copy)]
      .filter(([name]) => name.startsWith("xl/comments"))
      .map(([, xml]) => xml);
    expect(notes.join("")).toMatch(
      /Live without the add-in: HYDROMETER within 0\.00000\d+ SG of the add-in's own/,
    );
    expect(notes.join("")).toMatch(/A value, not live: it takes a whole range at once\./);
  });

  test("is told with how many formulas are live, and how many are values", async () => {
    const { sheets } = (await openWorkbook(season())).model;
    const ours = sheets.flatMap(({ cells }) => cells.filter(({ formula }) => formula?.text.includes("GYLE")));
    // Like formulas down a column share a note.
    const notes = [...partTexts(copy).values()]
      .join("")
      .matchAll(
        /<comment ref="[A-Z]+(\d+)"[^>]*><text><t[^>]*>[^<]*A value, not live: [^<]*?(?:Likewise down to [A-Z]+(\d+)\.)?</g,
      );
    const values = [...notes].reduce(
      (sum, [, first, last = first]) => sum + 1 + Number(last) - Number(first),
      0,
    );
    expect(values).toBeGreaterThan(0);
    expect(out).toMatch(
      new RegExp(` ${ours.length - values} of ${ours.length} formulas live, ${values} as values\\.`),
    );
  });

  test.runIf(libreOffice.present)(
    "follows changed readings in LibreOffice",
    { timeout: 90_000 },
    async () => {
      const changed = folderWith({ "season.xlsx": await patchBook(season(), readings) });
      await recalc(changed, "season.xlsx");
      const ours = await valuesIn(read(changed, "season.xlsx"));
      const theirs = await valuesIn(await convert(await patchBook(copy, readings), "xlsx", true));
      const before = await valuesIn(season());
      const bars = { J: 0.000_02, K: 0.000_02, L: 0.005, M: 0.05, N: 0.05 };
      let compared = 0;
      for (const [letter, bar] of Object.entries(bars))
        for (let row = 5; row <= 14; row++) {
          const address = `Season!${letter}${row}`;
          const [mine, other] = [ours(address), theirs(address)];
          if (typeof mine !== "number") continue;
          expect([address, Math.abs((other as number) - mine) <= bar]).toEqual([address, true]);
          compared++;
        }
      expect(compared).toBeGreaterThan(40);
      for (const address of ["Season!J5", "Season!K5", "Season!L5", "Season!J6"])
        expect(ours(address)).not.toBe(before(address));
    },
  );
});

test("both copies at once are refused", async () => {
  const run = await recalc(folder, "season.xlsx", "--live", "--values");
  expect([run.status, run.errors]).toEqual([2, expect.stringMatching(/one at a time/)]);
});
