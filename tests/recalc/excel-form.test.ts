import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { buildBook, partText, partTexts, sheetXml, zipParts } from "../support/build-workbook.js";
import { asExcelSaves } from "../support/excel-form.js";
import { fermentation, folderWith, read, recalc, season, starter, valuesIn, type Run } from "./command.js";

// Excel stores every formula with a function of an add-in as a dynamic array, also one of a single value. Whatever is done
// with such a workbook comes out as with the plain one.

const dynamic = /<c [^>]*cm="1"[^>]*><f t="array" (?:aca="1" )?ref="[A-Z0-9:]+"/g;
const plain: Readonly<Record<string, Uint8Array>> = {
  season: season(),
  fermentation: fermentation(),
  starter: starter(),
};
const saved = new Map(
  await Promise.all(
    Object.entries(plain).map(async ([name, bytes]) => [name, await asExcelSaves(bytes)] as const),
  ),
);
const excel = (name: string): Uint8Array => saved.get(name) ?? new Uint8Array();

async function run(bytes: Uint8Array, ...args: readonly string[]): Promise<Run & { folder: string }> {
  const folder = folderWith({ "book.xlsx": bytes });
  return { folder, ...(await recalc(folder, "book.xlsx", ...args)) };
}

/** What a person sees of a workbook: the values. */
const shown = async (bytes: Uint8Array) =>
  (await openWorkbook(bytes)).model.sheets.map(({ name, cells }) => [
    name,
    cells.map(({ row, column, value }) => [row, column, value]),
  ]);

describe("the workbooks of these tests", () => {
  test("have each formula of ours in the form of Excel, and read as ours all the same", async () => {
    const text = partText(excel("season"), "xl/worksheets/sheet2.xml");
    expect(text.match(dynamic)?.length).toBe(55);
    expect(text).not.toMatch(/<f>[^<]*GYLE/);
    expect(await shown(excel("season"))).toEqual(await shown(season()));
  });
});

describe("a workbook that Excel saved", () => {
  for (const name of Object.keys(plain)) {
    for (const args of [[], ["--check"], ["--changes", "changes.csv"]])
      test(`${name} ${args.join(" ")} says the same as in the plain form`, async () => {
        const [mine, theirs] = [
          await run(plain[name] ?? new Uint8Array(), ...args),
          await run(excel(name), ...args),
        ];
        expect([theirs.status, theirs.errors, theirs.out]).toEqual([mine.status, mine.errors, mine.out]);
        if (args.length === 0) expect(read(theirs.folder, "book.xlsx")).toEqual(excel(name));
      });

    for (const way of ["live", "values"])
      test(`${name} --${way} has as many formulas and the same values as from the plain form`, async () => {
        const [mine, theirs] = [
          await run(plain[name] ?? new Uint8Array(), `--${way}`),
          await run(excel(name), `--${way}`),
        ];
        expect([theirs.status, theirs.errors, theirs.out]).toEqual([mine.status, mine.errors, mine.out]);
        if (name === "season" && way === "live") expect(theirs.out).toContain(" 135 of 152 formulas live, ");
        const [a, b] = [read(mine.folder, `book-${way}.xlsx`), read(theirs.folder, `book-${way}.xlsx`)];
        expect(await shown(b)).toEqual(await shown(a));
        const texts = async (bytes: Uint8Array) =>
          (await openWorkbook(bytes)).model.sheets.map(({ cells }) => cells.map(({ formula }) => formula));
        expect(await texts(b)).toEqual(await texts(a));
      });
  }

  test("keeps the array form in a live copy where what stands around our call needs it", async () => {
    const number = (address: string, value: number) => `<c r="${address}"><v>${value}</v></c>`;
    const row = (n: number, rest = "") =>
      `<row r="${n}">${number(`A${n}`, n)}${number(`B${n}`, 10)}${rest}</row>`;
    const sum = 'SUM(A1:A3*B1:B3)+_xldudf_GYLE_CONVERT(A1,"P","SG")';
    const cell = (address: string, formula: string) =>
      `<c r="${address}"><f t="array" ref="${address}">${formula}</f><v>61.00387</v></c>`;
    const book = buildBook({ sheets: { S: sheetXml(row(1, cell("C1", sum)) + row(2) + row(3)) } });
    const { folder, out } = await run(await asExcelSaves(book), "--live");
    expect(out).toMatch(/ 1 of 1 formula/);
    const text = partText(read(folder, "book-live.xlsx"), "xl/worksheets/sheet1.xml");
    expect(text).toMatch(/<f t="array" ref="C1">SUM\(A1:A3\*B1:B3\)\+IF/);
    expect((await valuesIn(read(folder, "book-live.xlsx")))("S!C1")).toBeCloseTo(61.0039, 3);
  });

  test("typed without the add-in, spills where Excel knew of one cell only", async () => {
    const number = (address: string, value: number) => `<c r="${address}"><v>${value}</v></c>`;
    const text = (address: string, value: string) =>
      `<c r="${address}" t="inlineStr"><is><t>${value}</t></is></c>`;
    const rows = [1.045, 1.05, 1.06].map((sg, i) => [number(`A${i + 1}`, sg), number(`B${i + 1}`, 20)]);
    rows[2] = [text("A3", "1,060"), number("B3", 20)];
    rows[0]?.push('<c r="C1"><f>_xldudf_GYLE_HYDROMETER(A1:A3,B1:B3)</f><v>1</v></c>');
    const xml = rows.map((cells, i) => `<row r="${i + 1}">${cells.join("")}</row>`).join("");
    const book = await asExcelSaves(buildBook({ sheets: { S: sheetXml(xml) } }), "unbound");
    expect(partText(book, "xl/worksheets/sheet1.xml")).toContain(
      'ref="C1" ca="1">GYLE.HYDROMETER(A1:A3,B1:B3)<',
    );
    const { folder } = await run(book, "--repair");
    const at = await valuesIn(read(folder, "book.xlsx"));
    expect([at("S!C1"), at("S!C2"), at("S!C3")]).toEqual([
      expect.closeTo(1.045, 3),
      expect.closeTo(1.05, 3),
      { error: "#VALUE!" },
    ]);
    expect(partText(read(folder, "book.xlsx"), "xl/worksheets/sheet1.xml")).toMatch(
      /<c r="C1" cm="1"><f t="array"[^>]* ref="C1:C3"[^>]*>_xldudf_GYLE_HYDROMETER\(A1:A3,B1:B3\)</,
    );
    // The reading is the fault, and the error in the third row follows from it: it is told once.
    const { out } = await run(book, "--check");
    expect(out).toMatch(/S!A3 /);
    expect(out).not.toMatch(/S!C3 /);
  });

  test("is checked through what another formula spills", async () => {
    const number = (address: string, value: number) => `<c r="${address}"><v>${value}</v></c>`;
    const more = [
      '<c r="C1"><f t="array" ref="C1:C3">A1:A3*1</f><v>1.05</v></c>' +
        '<c r="D1"><f>_xldudf_GYLE_HYDROMETER(_xlfn.ANCHORARRAY(C1),20)</f></c>',
      number("C2", 1048),
      number("C3", 1.06),
    ];
    const rows = [1.05, 1048, 1.06]
      .map((sg, i) => `<row r="${i + 1}">${number(`A${i + 1}`, sg)}${more[i] ?? ""}</row>`)
      .join("");
    const book = await asExcelSaves(buildBook({ sheets: { S: sheetXml(rows) } }));
    const parts = partTexts(book);
    const sheet = parts.get("xl/worksheets/sheet1.xml")?.replace('<c r="C1">', '<c r="C1" cm="1">') ?? "";
    const { out } = await run(
      zipParts({ ...Object.fromEntries(parts), "xl/worksheets/sheet1.xml": sheet }),
      "--check",
    );
    expect(out).toMatch(/S!C2 .*1048/);
  });

  test("and any other, is repaired into the form of Excel, unless that would give more than its cell shows", async () => {
    const number = (address: string, value: number) => `<c r="${address}"><v>${value}</v></c>`;
    const unheard = (address: string, formula: string) =>
      `<c r="${address}" t="e"><f>${formula}</f><v>#NAME?</v></c>`;
    const line = (row: number, ...more: string[]) =>
      `<row r="${row}">${number(`A${row}`, 1.05)}${number(`B${row}`, 20)}${more.join("")}</row>`;
    const rows =
      line(
        1,
        unheard("C1", "GYLE.HYDROMETER(A1,B1)"),
        unheard("D1", "GYLE.HYDROMETER(A1:A3,B1:B3)"),
        unheard("E1", "IF(A1:A3&gt;1,GYLE.HYDROMETER(A1,B1),0)"),
        unheard("F1", "ROUND(GYLE.BLEND(B1:B3,A1:A3),3)"),
      ) +
      line(2) +
      line(3);
    const { folder } = await run(buildBook({ sheets: { S: sheetXml(rows) } }), "--repair");
    const sheet = partText(read(folder, "book.xlsx"), "xl/worksheets/sheet1.xml");
    const [c, d, e, f] = ["C1", "D1", "E1", "F1"].map(
      (address) => new RegExp(`<c r="${address}".*?</f>`).exec(sheet)?.[0],
    );
    expect(c).toBe('<c r="C1" cm="1"><f t="array" ref="C1">_xldudf_GYLE_HYDROMETER(A1,B1)</f>');
    expect(d).toBe('<c r="D1"><f>_xldudf_GYLE_HYDROMETER(A1:A3,B1:B3)</f>');
    expect(e).toMatch(/^<c r="E1"><f>IF/);
    expect(f).toMatch(/^<c r="F1" cm="1"><f t="array" ref="F1">ROUND/);
  });
});
