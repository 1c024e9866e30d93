import { beforeAll, describe, expect, test } from "vitest";
import { CellError } from "../../../src/functions/contract/cell-value.js";
import { evaluate } from "../../../src/functions/evaluate.js";
import type { CellValue } from "../../../src/workbook/model.js";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { buildBook, sheetXml } from "../../support/build-workbook.js";
import { instruments } from "../../support/instruments.js";
import { convert } from "../../support/libreoffice.js";
import { randomFrom } from "../../support/synthetic-log.js";
import { libreOffice } from "../../support/tools.js";
import { cellAt, liveFormulas, type Raw } from "../live-cells.js";

// A formula without the add-in is worth what another spreadsheet program makes of it: LibreOffice recalculates each of these
// beside inputs that were drawn at random, and the cell function says what it should be. The bars are the project's own
// promise: 0.00002 SG, 0.005 % vol, 0.05 % of attenuation and efficiency.

const random = randomFrom(6);
const between = (low: number, high: number, decimals: number) => (): Raw =>
  Number((low + (high - low) * random()).toFixed(decimals));
/** As people write gravities: some without the point. */
const gravity =
  (low = 0.98, high = 1.135) =>
  (): Raw => {
    const sg = between(low, high, 4)() as number;
    return random() < 0.3 ? Number((1000 * sg).toFixed(1)) : sg;
  };
const beer = gravity(0.995, 1.04);
const wort = gravity(1.0, 1.13);
const plato = (low = 0, high = 30): (() => Raw) => between(low, high, 2);
/** A cell that often holds 0. */
const oftenZero =
  (draw: () => Raw): (() => Raw) =>
  () =>
    random() < 0.2 ? 0 : draw();
const celsius = between(-3, 84, 1);
const volume = between(0.5, 60, 2);

const SG = 0.000_02;
const VOL = 0.005;
const PERCENT = 0.05;

interface Case {
  /** Arguments: what draws a cell, a list of so many of them, or what stands in the formula itself. */
  readonly args: readonly ((() => Raw) | readonly (() => Raw)[] | string)[];
  readonly tolerance: number;
  /** The tolerance is a share of the result. */
  readonly relative?: true;
}

const three = <T>(draw: T): readonly T[] => [draw, draw, draw];
const cases: Readonly<Record<string, readonly Case[]>> = {
  CONVERT: [
    { args: [gravity(), '"SG"', '"P"'], tolerance: 0.005 },
    { args: [between(-6, 32, 2), '"P"', '"SG"'], tolerance: SG },
    { args: [gravity(), '"SG"', '"SG60"'], tolerance: SG },
    { args: [between(970, 1140, 2), '"KGM3"', '"SG"'], tolerance: SG },
  ],
  HYDROMETER: [
    { args: [gravity(), celsius], tolerance: SG },
    { args: [gravity(), celsius, "", '"P"'], tolerance: 0.005 },
    { args: [gravity(), celsius, '"Starting glass"'], tolerance: SG },
    { args: [beer, celsius, '"Finishing glass"'], tolerance: SG },
    { args: [gravity(), between(25, 180, 1), '"Old sixty"'], tolerance: SG },
    { args: [between(-3, 32, 1), celsius, '"Plato spindle"'], tolerance: SG },
    { args: [oftenZero(between(-1, 2, 1)), between(2, 40, 1), '"Plato spindle"'], tolerance: SG },
    { args: [gravity(), "25"], tolerance: SG },
    { args: ["1.046", celsius, '"Starting glass"'], tolerance: SG },
  ],
  FLOATING: [{ args: [gravity(), '"Bobber"'], tolerance: SG }],
  ABV: [
    { args: [wort, beer], tolerance: VOL },
    { args: [between(3, 31, 2), between(-4, 12, 2), "", '"P"'], tolerance: VOL },
    { args: [wort, beer, '"QUOTIENT"'], tolerance: VOL },
    { args: [wort, beer, '"RULE"'], tolerance: VOL },
    { args: ["1.06", beer], tolerance: VOL },
  ],
  ABW: [{ args: [wort, beer], tolerance: VOL }],
  "ATTENUATION.APPARENT": [{ args: [wort, beer], tolerance: PERCENT }],
  "ATTENUATION.REAL": [
    { args: [wort, beer], tolerance: PERCENT },
    { args: [between(0.2, 31, 2), between(-4, 12, 2), '"P"'], tolerance: PERCENT },
  ],
  "EXTRACT.REAL": [{ args: [wort, beer], tolerance: 0.005 }],
  ENERGY: [
    { args: [wort, beer, "330"], tolerance: 0.165 },
    { args: [wort, beer, between(50, 568, 0)], tolerance: 0.284 }, // 0.05 kcal in 100 mL
    { args: [plato(2, 29), plato(-3, 8), "330", '"P"'], tolerance: 0.165 },
    { args: [plato(2, 29), plato(-3, 8), between(50, 568, 0), '"P"'], tolerance: 0.284 },
  ],
  "FINAL.EXPECTED": [{ args: [wort, between(0, 135, 1)], tolerance: SG }],
  "CO2.LATENT": [
    { args: [beer, beer], tolerance: 0.01 },
    { args: [beer, beer, "", wort], tolerance: 0.01 },
    { args: [between(1, 9, 2), between(0, 5, 2), '"VOL"', between(6, 29, 2), '"P"'], tolerance: 0.005 },
    { args: ["1.014", beer, '"VOL"', wort], tolerance: 0.005 },
  ],
  "PLUSMINUS.ABV": [{ args: [wort, beer, "0.0014", "0.001"], tolerance: VOL }],
  "PLUSMINUS.HYDROMETER": [{ args: [gravity(), "20"], tolerance: SG }],
  "PLUSMINUS.REFRACTOMETER": [{ args: [between(-1, 33, 2)], tolerance: SG }],
  ORIGINAL: [{ args: [beer, between(2, 12, 2)], tolerance: SG }],
  "REFRACTOMETER.WORT": [
    { args: [between(-1, 33, 2)], tolerance: SG },
    { args: [between(-1, 33, 2), "", '"Pocket prism"'], tolerance: SG },
    { args: [oftenZero(between(0, 33, 2)), "20"], tolerance: SG },
  ],
  "REFRACTOMETER.BEER": [
    { args: [between(2, 14, 2), wort], tolerance: SG },
    { args: [between(2, 14, 2), between(4, 28, 2)], tolerance: SG },
    { args: [between(2, 14, 2), wort, "", '"Pocket prism"', '"P"'], tolerance: 0.005 },
  ],
  "VOLUME.COOLED": [
    { args: [volume, between(-5, 105, 1)], tolerance: 1e-4, relative: true },
    { args: [volume, between(20, 220, 1), "68", '"F"'], tolerance: 1e-4, relative: true },
    { args: [volume, celsius, between(1, 40, 1)], tolerance: 1e-4, relative: true },
    { args: [volume, between(20, 220, 1), between(34, 90, 1), '"F"'], tolerance: 1e-4, relative: true },
  ],
  "EXTRACT.MASS": [
    { args: [volume, gravity(), '"gal"', '"lbm"'], tolerance: 1e-4, relative: true },
    { args: [volume, gravity(), '"uk_beer_bbl"'], tolerance: 1e-4, relative: true },
    { args: [volume, plato(-1, 31), "", "", '"P"'], tolerance: 1e-4, relative: true },
  ],
  "BOIL.GRAVITY": [
    { args: [between(20, 60, 1), gravity(1, 1.09), between(10, 60, 1)], tolerance: SG },
    { args: [between(20, 60, 1), plato(0, 20), between(10, 60, 1), '"P"'], tolerance: 0.005 },
  ],
  "BOIL.VOLUME": [
    { args: [volume, gravity(), wort], tolerance: 1e-4, relative: true },
    { args: [volume, plato(), plato(), '"P"'], tolerance: 1e-4, relative: true },
  ],
  DILUTE: [
    { args: [volume, wort, wort], tolerance: 1e-4, relative: true },
    { args: [volume, plato(), plato(), '"P"'], tolerance: 1e-4, relative: true },
  ],
  FORTIFY: [
    { args: [volume, wort, wort], tolerance: 1e-4, relative: true },
    { args: [volume, wort, wort, "37", '"PPG"', '"gal"', '"lbm"'], tolerance: 1e-4, relative: true },
    { args: [volume, wort, wort, between(60, 110, 1)], tolerance: 1e-4, relative: true },
    { args: [volume, wort, wort, between(-1, 47, 1), '"PPG"'], tolerance: 1e-4, relative: true },
    {
      args: [volume, plato(), plato(), between(0, 100, 0), "", "", "", '"P"'],
      tolerance: 1e-4,
      relative: true,
    },
    { args: [volume, plato(), plato(), "", '"PPG"', "", "", '"P"'], tolerance: 1e-4, relative: true },
  ],
  BLEND: [
    { args: [three(volume), three(gravity(0.999, 1.12))], tolerance: SG },
    { args: [three(volume), three(plato(-0.1, 29)), '"P"'], tolerance: 0.005 },
    { args: [three(oftenZero(volume)), three(oftenZero(gravity(1, 1.12)))], tolerance: SG },
  ],
  "EXTRACT.POTENTIAL": [
    { args: [three(volume), three(between(10, 100, 1))], tolerance: 1e-4, relative: true },
    { args: [three(volume), three(between(5, 46, 1)), '"PPG"'], tolerance: 1e-4, relative: true },
    { args: [three(volume), three(between(0.6, 8, 1))], tolerance: 1e-4, relative: true },
  ],
  EFFICIENCY: [
    { args: [volume, wort, three(between(1, 6, 2)), three(between(50, 90, 1))], tolerance: PERCENT },
    {
      args: [volume, wort, three(between(1, 6, 2)), three(between(200, 330, 1)), '"LDK"'],
      tolerance: PERCENT,
    },
    {
      args: [volume, wort, three(between(9, 30, 1)), three(between(20, 46, 1)), '"PPG"'],
      tolerance: PERCENT,
    },
    {
      args: [volume, plato(), three(between(1, 6, 2)), three(between(50, 90, 1)), "", "", "", '"P"'],
      tolerance: PERCENT,
    },
    {
      args: [
        between(0.1, 2, 2),
        wort,
        three(between(9, 90, 1)),
        three(between(50, 90, 1)),
        "",
        '"us_beer_bbl"',
        '"kg"',
      ],
      tolerance: PERCENT,
    },
  ],
};

/** So many lines of each case; in each of the last few one input is not what it should be. */
const LINES = 80;
const odd: readonly Raw[] = [undefined, "", " ", "1,052", "n/a", 0];

interface Line {
  readonly name: string;
  readonly of: Case;
  readonly formula: string;
  readonly cells: readonly Raw[];
  readonly expected: unknown;
}

const literal = (text: string): Raw =>
  text === "" ? undefined : text.startsWith('"') ? text.slice(1, -1) : Number(text);

function line(name: string, of: Case, row: number, spoiled: { readonly by: Raw } | undefined): Line {
  const cells: Raw[] = [];
  const drawn = of.args.map((arg) => {
    if (typeof arg === "string") return { text: arg, value: literal(arg) };
    const draws = typeof arg === "function" ? [arg] : arg;
    const first = cells.length;
    cells.push(...draws.map((draw) => draw()));
    const [from, to] = [cellAt(row, first), cellAt(row, cells.length - 1)];
    const range = typeof arg === "function" ? from : `${from}:${to}`;
    return { text: range, first, end: cells.length };
  });
  // Lists are left whole: there, a text in a cell is an error of its own kind.
  if (spoiled && !of.args.some((arg) => Array.isArray(arg)))
    cells[Math.floor(random() * cells.length)] = spoiled.by;
  const values = drawn.map((each) => ("first" in each ? [cells.slice(each.first, each.end)] : each.value));
  const [[expected] = []] = evaluate(name, values, instruments);
  return { name, of, formula: `GYLE.${name}(${drawn.map(({ text }) => text).join(",")})`, cells, expected };
}

const lines: Line[] = [];
for (const [name, list] of Object.entries(cases))
  for (const of of list)
    for (let i = 0; i < LINES; i++)
      lines.push(line(name, of, lines.length, i < LINES - 12 ? undefined : { by: odd[i % odd.length] }));

const escaped = (text: string): string => text.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
const cellXml = (value: Raw, at: string): string =>
  value === undefined
    ? ""
    : typeof value === "number"
      ? `<c r="${at}"><v>${value}</v></c>`
      : `<c r="${at}" t="inlineStr"><is><t xml:space="preserve">${escaped(value)}</t></is></c>`;

const FORMULA_COLUMN = 10;

describe.runIf(libreOffice.present)("live formulas, recalculated by LibreOffice", () => {
  let results: CellValue[] = [];
  beforeAll(async () => {
    const formulas = liveFormulas();
    const rows = lines.map(({ formula, cells }, row) => {
      const { text } = formulas.of(formula, { sheet: 0, row, column: FORMULA_COLUMN });
      const inputs = cells.map((value, column) => cellXml(value, cellAt(row, column))).join("");
      return `<row r="${row + 1}">${inputs}<c r="${cellAt(row, FORMULA_COLUMN)}"><f>${escaped(text)}</f></c></row>`;
    });
    const { name, rows: coefficients } = formulas.sheet.sheet;
    const theirRows = coefficients.map((cells, row) => {
      const written = cells.map((value, column) => cellXml((value ?? undefined) as Raw, cellAt(row, column)));
      return `<row r="${row + 1}">${written.join("")}</row>`;
    });
    const book = buildBook({ sheets: { S: sheetXml(rows.join("")), [name]: sheetXml(theirRows.join("")) } });
    const theirs = (await openWorkbook(await convert(book, "xlsx", true))).model.sheets[0]?.cells ?? [];
    const values = new Map(
      theirs.filter(({ column }) => column === FORMULA_COLUMN).map(({ row, value }) => [row, value]),
    );
    results = lines.map((_, row) => values.get(row) ?? null);
  }, 240_000);

  test.each(Object.keys(cases))("%s is what the function gives, blank or #N/A where it is", (name) => {
    const wrong: unknown[] = [];
    let numbers = 0;
    for (const [row, { name: own, of, formula, cells, expected }] of lines.entries()) {
      if (own !== name) continue;
      const result = results[row];
      const tell = (): unknown => wrong.push([formula, cells, "ours", String(expected), "theirs", result]);
      if (expected instanceof CellError) {
        if (JSON.stringify(result) !== '{"error":"#N/A"}') tell();
      } else if (typeof expected === "number") {
        numbers++;
        const tolerance = of.relative ? of.tolerance * Math.abs(expected) : of.tolerance;
        if (!(typeof result === "number" && Math.abs(result - expected) <= tolerance)) tell();
      } else if ((result ?? "") !== expected) tell();
    }
    expect(wrong).toEqual([]);
    expect(numbers).toBeGreaterThan(LINES / 5);
  });
});
