import { describe, expect, test } from "vitest";
import type { CellChange } from "../../src/workbook/model.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { partTexts } from "../support/build-workbook.js";
import { cell } from "../support/cells.js";
import { convert } from "../support/libreoffice.js";
import { expectOnlyChanged, patchBook } from "../support/patched.js";
import { libreOffice } from "../support/tools.js";
import { brewLog, folderWith, read, recalc, valuesIn } from "./command.js";

// A brewer's existing workbook, of an invented brewery, to which columns with our formulas are added.

const FIRST = 4;
const LAST = 41;
const column = { M: 12, N: 13, O: 14, P: 15, R: 17 } as const;

const rows = Array.from({ length: LAST - FIRST + 1 }, (_, i) => FIRST + i);

function formula(letter: keyof typeof column, row: number, text: string): CellChange {
  return {
    sheet: "Batches",
    row: row - 1,
    column: column[letter],
    value: null,
    formula: { text, kind: "plain" },
  };
}

/** Corrected gravities, alcohol and attenuation beside every row; and a whole season in one formula further right. */
const added: CellChange[] = [
  ...rows.flatMap((row) => [
    formula("M", row, `_xldudf_GYLE_HYDROMETER(D${row},E${row})`),
    formula("N", row, `GYLE.HYDROMETER(G${row},H${row})`),
    formula("O", row, `_xldudf_GYLE_ABV(M${row},N${row})`),
    formula("P", row, `IF(O${row}="","",ROUND(_xldudf_GYLE_ATTENUATION_APPARENT(M${row},N${row}),1))`),
  ]),
  {
    sheet: "Batches",
    row: FIRST - 1,
    column: column.R,
    value: null,
    formula: {
      text: `_xldudf_GYLE_SEASON(OG_seen,E4:E41,FG_seen,H4:H41)`,
      kind: "spill",
      area: { top: 3, left: 17, bottom: 3, right: 17 },
    },
  },
  {
    sheet: "Grist",
    row: 1,
    column: 10,
    value: null,
    formula: { text: "_xldudf_GYLE_EFFICIENCY(H2,Batches!M4,C2:C4,D2:D4)", kind: "plain" },
  },
  {
    sheet: "Grist",
    row: 2,
    column: 10,
    value: null,
    formula: { text: 'COUNT(Batches!O:O)&" beers"', kind: "plain" },
  },
];

const before = await patchBook(brewLog(), added);
const place = folderWith({ "log.xlsx": before });
const run = await recalc(place, "log.xlsx");
const after = read(place, "log.xlsx");
const valueIn = await valuesIn(after);
const at = (address: string) => valueIn(`Batches!${address}`);

describe("a brewer's existing workbook", () => {
  test("comes out with corrected gravities, alcohol and attenuation in its cells", () => {
    expect(run.status).toBe(0);
    expect(at("M4")).toBe(cell("HYDROMETER", 1.042, 28.9));
    expect(at("N4")).toBe(cell("HYDROMETER", 1.011, 19.8));
    expect(at("O4")).toBeCloseTo(cell("ABV", at("M4"), at("N4")) as number, 12);
    expect(at("P4")).toBeCloseTo(cell("ATTENUATION.APPARENT", at("M4"), at("N4")) as number, 0.5);
  });

  test("takes 1078 for 1.078", () => {
    expect(at("M9")).toBe(cell("HYDROMETER", 1.078, 25.2));
    expect(at("O9")).toBeGreaterThan(7);
  });

  test("shows one clear error for the comma text and one for n/a, each in its place", () => {
    expect(at("M22")).toEqual({ error: "#VALUE!" });
    expect(at("M13")).toEqual({ error: "#VALUE!" });
    expect(run.out).toMatch(
      /Batches!M22 {2}#VALUE! {2}The reading is "1,052": text, not a number\. If the comma is a decimal comma/,
    );
    expect(run.out).toMatch(/Batches!M13 {2}#VALUE! {2}The sample temperature is "n\/a": text, not a number/);
    // In one formula for the season: one error a row, and the other gravity still there.
    const season = (row: number) => ["R", "S", "T", "U", "V"].map((letter) => at(`${letter}${row}`));
    expect(season(22)).toEqual([{ error: "#VALUE!" }, cell("HYDROMETER", 1.018, 19.6), "", "", ""]);
    expect(season(13)).toEqual([{ error: "#VALUE!" }, cell("HYDROMETER", 1.01, 18.5), "", "", ""]);
  });

  test("leaves blank lines and unfinished batches blank", () => {
    for (const row of [16, 29])
      expect(["M", "N", "O", "P"].map((letter) => at(`${letter}${row}`))).toEqual(["", "", "", ""]);
    for (const row of [40, 41]) {
      expect(at(`M${row}`)).toBeGreaterThan(1.04);
      expect(["N", "O", "P"].map((letter) => at(`${letter}${row}`))).toEqual(["", "", ""]);
      expect(["S", "T", "U", "V"].map((letter) => at(`${letter}${row}`))).toEqual(["", "", "", ""]);
    }
  });

  test("fills five columns for the season, as the single formulas do", () => {
    for (const row of rows.filter((each) => ![13, 22].includes(each)))
      expect([at(`R${row}`), at(`S${row}`)]).toEqual([at(`M${row}`), at(`N${row}`)]);
    expect(at("T4")).toBeCloseTo(at("O4") as number, 9);
  });

  test("follows references to other sheets, defined names and whole columns", () => {
    const efficiency = cell("EFFICIENCY", 23, at("M4"), [[4.4], [0.3], [0.2]], [[79.5], [74], [76]]);
    expect(valueIn("Grist!K2")).toBeCloseTo(efficiency as number, 9);
    const counted = rows.filter((row) => typeof at(`O${row}`) === "number").length;
    expect(valueIn("Grist!K3")).toBe(`${counted} beers`);
  });

  test("keeps the chart and every other part byte for byte", () => {
    const sheets = ["xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml"];
    expectOnlyChanged(before, after, sheets);
    // Of the brewer's own file, only what formulas need was added.
    const plain = partTexts(brewLog());
    const now = partTexts(after);
    for (const name of [
      "xl/charts/chart1.xml",
      "xl/comments1.xml",
      "xl/styles.xml",
      "xl/sharedStrings.xml",
      "xl/drawings/vmlDrawing1.vml",
    ])
      expect(now.get(name)).toBe(plain.get(name));
  });

  test("keeps the brewer's own cells, the old sums among them", async () => {
    const cells = async (bytes: Uint8Array) =>
      (await openWorkbook(bytes)).model.sheets.map(({ cells: all }) => all.filter(({ column: c }) => c < 10));
    expect(await cells(after)).toEqual(await cells(brewLog()));
  });

  test("changes nothing when it is done again", async () => {
    const again = await recalc(place, "log.xlsx");
    expect(again.out).toMatch(/ 0 cells changed, .*nothing to write/);
    expect(read(place, "log.xlsx")).toEqual(after);
  });

  test.runIf(libreOffice.present)("opens in LibreOffice, whose own formulas come to the same", async () => {
    const theirs = (await openWorkbook(await convert(after, "xlsx", true))).model.sheets[0]?.cells ?? [];
    const old = (bytes: readonly { row: number; column: number; value: unknown }[]) =>
      bytes
        .filter((each) => each.row >= 3 && (each.column === 9 || each.column === 10))
        .map((each) => each.value);
    const mine = (await openWorkbook(after)).model.sheets[0]?.cells ?? [];
    expect(old(theirs).length).toBeGreaterThan(60);
    expect(old(theirs)).toEqual(old(mine));
  });
});
