import { mkdirSync, readdirSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { bookOf } from "../support/build-workbook.js";
import { folderWith, read, recalc, type Run } from "./command.js";

const stale = bookOf('<row r="1"><c r="A1"><f>GYLE.ABV(1.05,1.01)</f><v>1</v></c></row>');

/** A folder that is gone after the tests, with workbooks and other files below it. */
function tree(...paths: readonly string[]): string {
  const folder = folderWith({});
  for (const path of paths) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), stale);
  }
  return folder;
}

const taken = ({ out }: Run): string[] =>
  out
    .trimEnd()
    .split("\n")
    .map((line) => line.split(/[: ]/)[0] ?? "");

test("a folder is taken with those inside it, and each result stands where its workbook stood", async () => {
  const folder = tree("a.xlsx", "2025/a.xlsx", "2025/pilot/b.xlsm.xlsx", "2026/C.XLSX");
  const run = await recalc(folder, ".", "-o", "done/");
  expect([run.status, run.errors]).toEqual([0, ""]);
  const paths = ["2025/a.xlsx", "2025/pilot/b.xlsm.xlsx", "2026/C.XLSX", "a.xlsx"];
  expect(taken(run)).toEqual(paths);
  for (const path of paths) expect(read(join(folder, "done"), path)).not.toEqual(stale);
  // Results are not taken for workbooks when it is done again.
  expect(taken(await recalc(folder, ".", "-o", "done/"))).toEqual(paths);
});

test("copies, other kinds of spreadsheet and links round in a circle are named, and hidden and lock files are not", async () => {
  const folder = tree(
    "a.xlsx",
    ...["a-values.xlsx", "a-live.xlsx", "a-shared.xlsx", "A-Values (2).XLSX", "old.xls", "sub/b.ods"],
    ...[
      "~$gone.xlsx",
      ".hidden.xlsx",
      ".git/c.xlsx",
      ".~lock.gone.xlsx#",
      "notes.csv",
      "my-values-of-may.xlsx",
    ],
  );
  symlinkSync("..", join(folder, "sub/round"));
  symlinkSync("a.xlsx", join(folder, "0-link.xlsx"));
  const run = await recalc(folder, ".");
  expect([run.status, taken(run)]).toEqual([0, ["a.xlsx", "my-values-of-may.xlsx"]]);
  const copy = "(a copy to hand over)";
  expect(run.errors).toMatch(/^gylesheet-recalc: Not taken from \.: .*\. Name a file to have it taken\.\n$/);
  const named = run.errors.replace(/^.*?: Not taken from \.: |\. Name a file.*\n$/g, "").split(", ");
  // ", not .xlsx" is part of a reason.
  expect(
    named
      .join(", ")
      .split(/(?<=\)), /)
      .sort(),
  ).toEqual(
    [
      ...["A-Values (2).XLSX", "a-live.xlsx", "a-shared.xlsx", "a-values.xlsx"].map(
        (name) => `${name} ${copy}`,
      ),
      "old.xls (.xls, not .xlsx)",
      "sub/b.ods (.ods, not .xlsx)",
      "sub/round (a link to a folder)",
    ].sort(),
  );
});

test.each(["--values", "--live", "--share"])(
  "%s of a folder does not copy its copies when it is done again",
  async (way) => {
    const folder = tree("a.xlsx", "sub/b.xlsx");
    expect([(await recalc(folder, ".", way)).status, (await recalc(folder, ".", way)).status]).toEqual([
      0, 0,
    ]);
    const suffix = way === "--share" ? "shared" : way.slice(2);
    expect(readdirSync(folder).sort()).toEqual([`a-${suffix}.xlsx`, "a.xlsx", "sub"].sort());
    expect(readdirSync(join(folder, "sub")).sort()).toEqual([`b-${suffix}.xlsx`, "b.xlsx"].sort());
  },
);

test("a copy that is named itself is taken", async () => {
  const folder = tree("a-values.xlsx");
  expect((await recalc(folder, "a-values.xlsx")).status).toBe(0);
  expect(await recalc(folder, ".")).toMatchObject({
    status: 2,
    errors: expect.stringMatching(
      /no \.xlsx workbook in the folder \.\. There is a-values\.xlsx \(a copy/,
    ) as string,
  });
});

test("it is never said that there is nothing to recalculate where a formula of ours is kept, but why it is", async () => {
  const since1904 = bookOf('<row r="1"><c r="A1"><f>GYLE.ABV(DATE(2026,1,1),1.01)</f><v>1</v></c></row>', {
    beforeSheets: '<workbookPr date1904="1"/>',
  });
  const folder = folderWith({ "book.xlsx": since1904 });
  const { out } = await recalc(folder, "book.xlsx");
  expect(out).not.toMatch(/nothing to recalculate/);
  expect(out).toMatch(/S!A1 {2}note {2}Dates in this workbook count from 1904/);
});
