import { describe, expect, test } from "vitest";
import type { Finding } from "../../src/check/finding.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import {
  brewLog,
  fermentation,
  folderWith,
  read,
  recalc,
  season,
  starter,
  valuesIn,
} from "../recalc/command.js";
import { buildBook, partTexts, sheetXml } from "../support/build-workbook.js";
import { expectOnlyChanged } from "../support/patched.js";

const profile = {
  kind: "hydrometer",
  scale: "SG",
  temperatureUnit: "C",
  calibrationTemperature: 20,
  read: "level",
};
/** Of an invented brewery. */
const instruments = JSON.stringify({
  version: 1,
  instruments: [
    { ...profile, name: "Starting glass", lowest: 1.03, highest: 1.1 },
    { ...profile, name: "Old sixty", temperatureUnit: "F", calibrationTemperature: 60 },
    { ...profile, name: "Spare glass" },
  ],
});

const number = (address: string, value: number): string => `<c r="${address}"><v>${value}</v></c>`;
const text = (address: string, value: string): string =>
  `<c r="${address}" t="inlineStr"><is><t>${value}</t></is></c>`;
/** A formula with what the file shows for it. */
const formula = (address: string, written: string, shown = "<v>1.05</v>", type = ""): string =>
  `<c r="${address}"${type}><f>${written.replaceAll('"', "&quot;")}</f>${shown}</c>`;
const hydrometer = (row: number, more = "", name = "_xldudf_GYLE_HYDROMETER"): string =>
  formula(`C${row}`, `${name}(A${row},B${row}${more})`);
const line = (row: number, ...cells: readonly string[]): string => `<row r="${row}">${cells.join("")}</row>`;

const NAME = [`<v>#NAME?</v>`, ' t="e"'] as const;

/** One of every fault, each on a line of its own. */
const faulty = buildBook({
  sheets: {
    Log: sheetXml(
      [
        line(1, number("A1", 1.046), number("B1", 20), hydrometer(1)),
        line(2, number("A2", 1.046), number("B2", 20), hydrometer(2, ',"Lost glass"')),
        line(3, number("A3", 1.12), number("B3", 20), hydrometer(3, ',"Starting glass"')),
        line(4, text("A4", "1,046"), number("B4", 20), hydrometer(4)),
        line(5, text("A5", "n/a"), number("B5", 20), hydrometer(5)),
        line(6, number("A6", 1.05), number("B6", 68), hydrometer(6)),
        line(7, number("A7", 1.05), number("B7", 21), hydrometer(7, ',"Old sixty"')),
        line(8, number("A8", 1048), number("B8", 20), hydrometer(8)),
        line(9, number("A9", 1.05), number("B9", 20), hydrometer(9, "", "GYLE.HYDROMETER")),
        line(
          10,
          number("A10", 1.05),
          number("B10", 20),
          formula("C10", "_xldudf_GYLE_HYDROMETER(A10,B10)", ...NAME),
        ),
        line(
          11,
          number("A11", 1.05),
          number("B11", 20),
          formula("C11", "[2]!_xldudf_GYLE_HYDROMETER(A11,B11)", ...NAME),
        ),
        // They follow from others, and are no faults of their own.
        line(12, formula("C12", "_xldudf_GYLE_ABV(C4,1.01)"), formula("D12", "_xldudf_GYLE_ABV(C5,1.01)")),
        // Two lines with the same fault.
        line(13, text("A13", "1.050 SG"), number("B13", 20), hydrometer(13)),
        line(14, text("A14", "1,051"), number("B14", 20), hydrometer(14)),
        // Excel can put a path before a function that it did not find.
        line(
          15,
          number("A15", 1.05),
          number("B15", 20),
          formula("C15", "'C:\\Brew (old)\\[gyle.xlam]Add-in'!GYLE.HYDROMETER(A15,B15)", ...NAME),
        ),
        line(
          16,
          number("A16", 1.05),
          number("B16", 20),
          formula("C16", "_xldudf_GYLE_HYDROMTER(A16,B16)", ...NAME),
        ),
      ].join(""),
    ),
    Locked: sheetXml(
      line(1, formula("A1", "_xldudf_GYLE_ABV(1.05,1.01)", "<v>5.24</v>")),
      "",
      '<sheetProtection sheet="1"/>',
    ),
  },
});

const check = async (
  bytes: Uint8Array,
  given = instruments,
): Promise<{ status: number | null; findings: readonly Finding[]; out: string }> => {
  const folder = folderWith({ "book.xlsx": bytes, "mine.json": given });
  const { status, out } = await recalc(
    folder,
    "book.xlsx",
    "--check",
    "--json",
    "--instruments",
    "mine.json",
  );
  expect(read(folder, "book.xlsx")).toEqual(bytes);
  const told = JSON.parse(out) as { format: number; workbooks: { findings: readonly Finding[] }[] };
  expect(told.format).toBe(1);
  return { status, findings: told.workbooks[0]?.findings ?? [], out };
};

describe("the check of a workbook", async () => {
  const { status, findings, out } = await check(faulty);

  test("finds each planted fault once, the gravest first", () => {
    expect(status).toBe(4);
    expect(findings.map(({ kind, sheet, cells }) => [kind, sheet, ...cells])).toEqual([
      ["unbound", "Log", "C9:C11", "C15"],
      ["missing-instrument", "Log", "C2"],
      ["off-scale", "Log", "A3"],
      ["text-number", "Log", "A4", "A13:A14"],
      ["error", "Log", "C5"],
      ["error", "Log", "C16"],
      ["fahrenheit-like", "Log", "B6"],
      ["celsius-like", "Log", "B7"],
      ["mixed-gravities", "Log", "A8"],
      ["unused-instrument", undefined],
      ["protected-sheet", "Locked"],
    ]);
    expect(findings.map(({ severity }) => severity).join()).toMatch(/^(fault,)+(doubt,)+(note,?)+$/);
  });

  test("has the shape in JSON that --help tells", async () => {
    const told = JSON.parse(out) as { workbooks: readonly { sheets: object[] }[] };
    const help = (await recalc(folderWith({}), "--help")).out;
    const [workbook] = told.workbooks;
    expect(Object.keys(told)).toEqual(["format", "gylesheet", "workbooks"]);
    expect(Object.keys(workbook ?? {})).toEqual(["workbook", "sheets", "findings"]);
    const fields = [...Object.keys(workbook?.sheets[0] ?? {}), ...findings.flatMap(Object.keys)];
    for (const field of fields) expect(help).toMatch(new RegExp(`JSON of --check[^]*\\b${field}\\b`));
  });

  test("says what was given, what is allowed, and what to do", () => {
    const says = findings.map((finding) => finding.says).join("\n");
    expect(says).toMatch(/No instrument of this workbook is called "Lost glass"/);
    expect(says).toMatch(/Outside of the graduation of "Starting glass", 1\.03 to 1\.1: 1\.12\./);
    expect(says).toMatch(/Text, not a number: "1,046", "1\.050 SG", "1,051"\./);
    expect(says).toMatch(/The reading is "n\/a": text, not a number/);
    expect(says).toMatch(/There is no function _xldudf_GYLE_HYDROMTER/);
    // 68 °F = 20 °C and 21 °C = 70 °F, by the definition of both scales.
    expect(says).toMatch(/look like °F where °C belongs: 68\. 68 °F is 20 °C\./);
    expect(says).toMatch(/look like °C where °F belongs: 21\. 21 °F is ice; 21 °C is 70 °F\./);
    expect(says).toMatch(/No formula names the instrument "Spare glass"/);
  });

  test("counts formulas and errors by sheet, and lists the protected ones", () => {
    const { workbooks } = JSON.parse(out) as { workbooks: { sheets: unknown }[] };
    // Lines 3 to 5, 7, 12 (twice), 13, 14 and 16: 21 °F is below the range of the function too. Line 2 keeps its number for
    // want of an instrument.
    const hydrometers = { name: "HYDROMETER", cells: ["C1:C11", "C13:C15"], count: 14 };
    expect(workbooks[0]?.sheets).toEqual([
      {
        sheet: "Log",
        isProtected: false,
        formulas: 17,
        errors: 9,
        functions: [hydrometers, { name: "ABV", cells: ["C12", "D12"], count: 2 }],
      },
      {
        sheet: "Locked",
        isProtected: true,
        formulas: 1,
        errors: 0,
        functions: [{ name: "ABV", cells: ["A1"], count: 1 }],
      },
    ]);
  });

  test("finds nothing in clean workbooks, but what the season shows on purpose", async () => {
    const books = { season: season(), starter: starter(), fermentation: fermentation(), log: brewLog() };
    const folder = folderWith(
      Object.fromEntries(Object.entries(books).map(([name, bytes]) => [`${name}.xlsx`, bytes])),
    );
    const run = await recalc(folder, ".", "--check", "--json");
    const told = JSON.parse(run.out) as { workbooks: { workbook: string; findings: readonly Finding[] }[] };
    const found = told.workbooks.flatMap(({ workbook, findings }) =>
      findings.map(({ kind, cells }) => [workbook, kind, ...cells]),
    );
    // It has two readings without the point, to show that they are read as well.
    expect([run.status, found]).toEqual([0, [["season.xlsx", "mixed-gravities", "D7", "D12"]]]);
  });

  test("is read on a terminal, with the places to look at", async () => {
    const folder = folderWith({ "book.xlsx": faulty, "mine.json": instruments });
    const run = await recalc(folder, "book.xlsx", "--check", "--instruments", "mine.json");
    expect(run.out).toMatch(/^book\.xlsx: 18 formulas of Gylesheet's checked, 11 found\./);
    expect(run.out).toMatch(/Locked: 1 formula, 0 in error, protected\n +ABV {2}Locked!A1\n/);
    expect(run.out).toMatch(/Faults\n +Log!C9:C11, C15 {2}The spreadsheet program shows #NAME\? here/);
  });

  test("names a workbook that it could not look through, for machines too", async () => {
    const folder = folderWith({ "bad.xlsx": "hello", "book.xlsx": faulty });
    const run = await recalc(folder, "bad.xlsx", "book.xlsx", "--check", "--json");
    expect(run.status).toBe(1);
    const told = JSON.parse(run.out) as { workbooks: { workbook: string; refused?: string }[] };
    expect(told.workbooks.map(({ workbook, refused }) => [workbook, refused])).toEqual([
      ["bad.xlsx", expect.stringMatching(/^is not an \.xlsx workbook but text.*save it as \.xlsx/)],
      ["book.xlsx", undefined],
    ]);
  });

  test("refuses what does not go with it", async () => {
    const folder = folderWith({ "book.xlsx": faulty });
    for (const more of [
      ["--check", "--repair"],
      ["--check", "-o", "x.xlsx"],
      ["--json"],
      ["--repair", "--values"],
    ])
      expect((await recalc(folder, "book.xlsx", ...more)).status).toBe(2);
  });
});

test("a graduation of which only one end is known is told by that end", async () => {
  const given = JSON.stringify({
    version: 1,
    instruments: [
      { ...profile, name: "Strong glass", lowest: 1.04 },
      { ...profile, name: "Weak glass", highest: 1.03 },
    ],
  });
  const lines = [
    line(1, number("A1", 1.02), number("B1", 20), hydrometer(1, ',"Strong glass"')),
    line(2, number("A2", 1.05), number("B2", 20), hydrometer(2, ',"Weak glass"')),
    line(3, number("A3", 1.04), number("B3", 20), hydrometer(3, ',"Strong glass"')),
    line(4, number("A4", 1.03), number("B4", 20), hydrometer(4, ',"Weak glass"')),
  ];
  const { findings } = await check(buildBook({ sheets: { Log: sheetXml(lines.join("")) } }), given);
  expect(findings.map(({ kind, cells, says }) => [kind, ...cells, says])).toEqual([
    ["off-scale", "A1", expect.stringMatching(/graduation of "Strong glass", from 1\.04 up: 1\.02\./)],
    ["off-scale", "A2", expect.stringMatching(/graduation of "Weak glass", up to 1\.03: 1\.05\./)],
  ]);
});

test("text is looked for in every argument that takes none, and in no other", async () => {
  const lines = [
    // Where it cools to is a temperature.
    line(
      1,
      text("A1", "20 °C"),
      formula("C1", "_xldudf_GYLE_VOLUME_COOLED(25,95,A1)"),
      formula("D1", '_xldudf_GYLE_CONVERT(12,A2,"SG")'),
    ),
    // A unit, and times.
    line(2, text("A2", "P"), text("B2", "2026-03-01"), number("C2", 1.05)),
    line(3, text("B3", "2026-03-02"), number("C3", 1.04)),
    line(4, formula("C4", "_xldudf_GYLE_FERMENT_RATE(B2:B3,C2:C3,B3)")),
  ];
  const { findings } = await check(
    buildBook({ sheets: { Log: sheetXml(lines.join("")) } }),
    '{"version":1,"instruments":[]}',
  );
  expect(findings.filter(({ kind }) => kind === "text-number").map(({ cells }) => cells)).toEqual([["A1"]]);
});

test("a doubt alone stops a script only under --strict", async () => {
  const celsius = [20, 21, 19, 22, 20, 68];
  const lines = celsius.map((value, i) =>
    line(i + 1, number(`A${i + 1}`, 1.05), number(`B${i + 1}`, value), hydrometer(i + 1)),
  );
  const doubtful = buildBook({ sheets: { Log: sheetXml(lines.join("")) } });
  const folder = folderWith({ "book.xlsx": doubtful });
  const run = await recalc(folder, "book.xlsx", "--check");
  expect([run.status, run.out]).toEqual([0, expect.stringMatching(/Doubtful\n +Log!B6 /)]);
  expect((await recalc(folder, "book.xlsx", "--check", "--strict")).status).toBe(4);
});

describe("repairing", () => {
  test("writes the formulas anew so that the spreadsheet program finds our functions, and touches nothing else", async () => {
    const folder = folderWith({ "book.xlsx": faulty, "mine.json": instruments });
    const run = await recalc(
      folder,
      "book.xlsx",
      "--repair",
      "--instruments",
      "mine.json",
      "-o",
      "whole.xlsx",
    );
    // The formula that names "Lost glass" keeps its number.
    expect(run.status).toBe(5);
    expect(run.out).toMatch(/1 formula kept for want of an instrument, 4 formulas written anew/);
    const repaired = read(folder, "whole.xlsx");
    expectOnlyChanged(
      faulty,
      repaired,
      [
        "[Content_Types].xml",
        "xl/_rels/workbook.xml.rels",
        "xl/worksheets/sheet1.xml",
        "xl/worksheets/sheet2.xml",
      ],
      ["xl/metadata.xml"],
    );
    const { model } = await openWorkbook(repaired);
    for (const row of [9, 10, 11, 15])
      expect(
        model.sheets[0]?.cells.find((cell) => cell.row === row - 1 && cell.column === 2)?.formula?.text,
      ).toBe(`_xldudf_GYLE_HYDROMETER(A${row},B${row})`);
    const at = await valuesIn(repaired);
    // At its own temperature a hydrometer read at the level surface needs no correction.
    for (const row of [9, 10, 11, 15]) expect(at(`Log!C${row}`)).toBeCloseTo(1.05, 9);
    expect((await check(repaired)).findings.filter(({ kind }) => kind === "unbound")).toEqual([]);
    expect(partTexts(repaired).get("xl/worksheets/sheet1.xml")).not.toMatch(/GYLE\.|\[2\]/);
  });

  test("changes nothing where there is nothing to repair", async () => {
    const folder = folderWith({ "season.xlsx": season() });
    const run = await recalc(folder, "season.xlsx", "--repair");
    expect([run.status, run.out]).toEqual([0, expect.stringMatching(/nothing to write/)]);
    expect(read(folder, "season.xlsx")).toEqual(season());
  });
});
