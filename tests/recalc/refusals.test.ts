import { readdirSync } from "node:fs";
import { join } from "node:path";
import { strToU8 } from "fflate";
import { describe, expect, test } from "vitest";
import { partNamespace } from "../../src/instruments/part.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { bookOf, buildBook, sheetXml } from "../support/build-workbook.js";
import { compoundFile } from "../support/compound-file.js";
import { spoilEntry } from "../support/spoil-zip.js";
import { brewLog, folderWith, read, recalc, season } from "./command.js";
import { patchBook } from "../support/patched.js";

const cell = (address: string, formula: string): string => `<c r="${address}"><f>${formula}</f></c>`;
const circular = bookOf(`<row r="1">${cell("A1", "GYLE.ABV(B1,1.01)")}${cell("B1", "A1+1")}</row>`);
const entities = buildBook({
  sheets: {
    S: `<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa">]>${sheetXml(`<row r="1">${cell("A1", "GYLE.ABV(1.05,1.01)")}</row>`)}`,
  },
});
const nested = buildBook({
  sheets: { S: sheetXml(`<row r="1">${"<x>".repeat(5000)}${"</x>".repeat(5000)}</row>`) },
});

/** Says of itself that four gigabytes would come out of it. */
const bomb = spoilEntry.field(season(), "xl/worksheets/sheet1.xml", "unpacked", 0xfff00000);

describe("a file that cannot be recalculated is named in one line with the cause, and nothing is written", () => {
  test.each([
    ["is no workbook", strToU8("hello"), /is not an \.xlsx workbook/],
    [
      "is encrypted",
      compoundFile("EncryptedPackage"),
      /is encrypted; open it in Excel and save it without a password/,
    ],
    ["is cut short", season().slice(0, 6000), /is damaged/],
    ["claims to hold more than it can", bomb, /is damaged|unpacks to/],
    ["has a circular reference", circular, /has a circular reference: \S*A1 → \S*B1 → \S*A1/],
    ["declares entities", entities, /declares a/],
    ["nests elements without end", nested, /nest|deep/],
    ["is empty", new Uint8Array(), /is empty|is not an \.xlsx workbook/],
  ] as const)("when it %s", async (_, bytes, cause) => {
    const folder = folderWith({ "bad.xlsx": bytes });
    const { status, out, errors } = await recalc(folder, "bad.xlsx", "-o", "out.xlsx");
    expect(status).toBe(1);
    expect(out).toBe("");
    expect(errors.trimEnd().split("\n")).toHaveLength(1);
    expect(errors).toMatch(/^gylesheet-recalc: bad\.xlsx /);
    expect(errors).toMatch(cause);
    expect(readdirSync(folder)).toEqual(["bad.xlsx"]);
    expect(read(folder, "bad.xlsx")).toEqual(bytes);
  });

  test("when it does not exist", async () => {
    const { status, errors } = await recalc(folderWith({}), "gone.xlsx");
    expect([status, errors]).toEqual([1, "gylesheet-recalc: gone.xlsx does not exist.\n"]);
  });

  test("when the place for the result is none", async () => {
    const folder = folderWith({ "season.xlsx": season(), file: "x" });
    const { status, errors } = await recalc(folder, "season.xlsx", "-o", "file/out.xlsx");
    expect(status).toBe(1);
    expect(errors).toMatch(/^gylesheet-recalc: season\.xlsx was not written: file\/out\.xlsx /);
    expect(readdirSync(folder).sort()).toEqual(["file", "season.xlsx"]);
  });

  test("but the other files of the same run are done", async () => {
    const folder = folderWith({ "a.xlsx": season(), "b.xlsx": "hello", "c.xlsx": season() });
    const { status, out } = await recalc(folder, ".", "-o", "done/");
    expect(status).toBe(1);
    expect(
      out
        .trimEnd()
        .split("\n")
        .map((line) => line.split(" ")[0]),
    ).toEqual(["a.xlsx", "c.xlsx"]);
    expect(readdirSync(join(folder, "done"))).toEqual(["a.xlsx", "c.xlsx"]);
  });
});

describe("instruments", () => {
  test("with a wrong field are refused with its path, what was found and what is allowed", async () => {
    const json = JSON.stringify({
      version: 1,
      instruments: [
        {
          name: "P",
          kind: "refractometer",
          scale: "BX",
          temperatureUnit: "C",
          compensates: true,
          wortFactor: "1,04",
        },
      ],
    });
    const folder = folderWith({ "season.xlsx": season(), "mine.json": json });
    const { status, errors } = await recalc(folder, "season.xlsx", "--instruments", "mine.json");
    expect(status).toBe(1);
    expect(errors).toMatch(
      /^gylesheet-recalc: mine\.json .*instruments\[0\]\.wortFactor: found "1,04"; allowed is a number\.\n$/,
    );
    expect(read(folder, "season.xlsx")).toEqual(season());
  });

  test("inside a workbook that cannot be read are left alone, unless others are given", async () => {
    const [part] = (await openWorkbook(season())).customXml(partNamespace);
    const xml = `<instruments xmlns="${partNamespace}">{"version":9}</instruments>`;
    const later = await patchBook(season(), [], { customXml: [{ path: part?.path ?? "", xml }] });
    const folder = folderWith({ "later.xlsx": later, "none.json": '{"version":1,"instruments":[]}' });
    const { status, errors } = await recalc(folder, "later.xlsx");
    expect(status).toBe(1);
    expect(errors).toMatch(
      /later\.xlsx has instruments that cannot be read: .*format version 9.*--instruments/,
    );
    expect(read(folder, "later.xlsx")).toEqual(later);
    const given = await recalc(folder, "later.xlsx", "--instruments", "none.json", "-o", "out.xlsx");
    expect(given.status).toBe(5);
    expect(given.out).toMatch(/It names the instrument "Starting glass", which is not in this workbook\./);
    expect((await openWorkbook(read(folder, "out.xlsx"))).customXml(partNamespace)[0]?.xml).toBe(xml);
  });
});

describe("wrong usage is said, with status 2 and nothing done", () => {
  test.each([
    ["no workbook", [], /No workbook is named/],
    ["an unknown option", ["--fast", "a.xlsx"], /Unknown option '--fast'/],
    ["one file for several results", ["a.xlsx", "b.xlsx", "-o", "out.xlsx"], /must be a folder/],
    [
      "a copy of values over its original",
      ["a.xlsx", "--values", "-o", "a.xlsx"],
      /may not overwrite a\.xlsx itself/,
    ],
    ["two results in one place", ["a.xlsx", "sub/../a.xlsx"], /would both be written to/],
  ] as const)("for %s", async (_, args, message) => {
    const folder = folderWith({ "a.xlsx": season(), "b.xlsx": season() });
    const { status, errors } = await recalc(folder, ...args);
    expect([status, errors]).toEqual([2, expect.stringMatching(message)]);
    expect(readdirSync(folder).sort()).toEqual(["a.xlsx", "b.xlsx"]);
  });

  test("for a folder without workbooks, not counting lock files", async () => {
    const folder = folderWith({ "~$season.xlsx": "lock", "notes.txt": "x" });
    expect(await recalc(folder, ".")).toMatchObject({
      status: 2,
      errors: expect.stringMatching(/no \.xlsx workbook in the folder/) as string,
    });
  });
});

test("help and version are told", async () => {
  const folder = folderWith({});
  expect((await recalc(folder, "--help")).out).toMatch(/^Usage: gylesheet-recalc /);
  expect((await recalc(folder, "--version")).out).toMatch(/^\d+\.\d+\.\d+\n$/);
});

test("a workbook without our formulas is left alone, and that is told", async () => {
  const folder = folderWith({ "log.xlsx": brewLog() });
  const { status, out } = await recalc(folder, "log.xlsx");
  expect([status, out]).toEqual([0, "log.xlsx: no Gylesheet formulas, nothing to recalculate.\n"]);
  expect(read(folder, "log.xlsx")).toEqual(brewLog());
});
