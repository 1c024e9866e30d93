import { spawn, spawnSync } from "node:child_process";
import {
  chmodSync,
  chownSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readlinkSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { FileRefused } from "../../src/recalc/refusal.js";
import { writeFileWhole } from "../../src/recalc/write-file.js";
import { zipParts, bookParts, contentTypesXml, sheetXml } from "../support/build-workbook.js";
import { signed } from "../support/signed.js";
import { folderWith, read, recalc, season } from "./command.js";

const formula = '<row r="1"><c r="A1"><f>GYLE.ABV(1.05,1.01)</f><v>1</v></c></row>';
const parts = bookParts({ sheets: { S: sheetXml(formula) } });
/** A workbook with something to write. */
const stale = zipParts(parts);
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const isRoot = process.getuid?.() === 0;

describe("what a file is stays what it was", () => {
  test.each([
    [
      "a link",
      (folder: string) => {
        symlinkSync("book.xlsx", join(folder, "link.xlsx"));
      },
    ],
    [
      "a link to a link",
      (folder: string) => {
        symlinkSync("book.xlsx", join(folder, "other.xlsx"));
        symlinkSync("./other.xlsx", join(folder, "link.xlsx"));
      },
    ],
  ])("%s stays one, and what it names is written", async (_, make) => {
    const folder = folderWith({ "book.xlsx": stale });
    make(folder);
    const to = readlinkSync(join(folder, "link.xlsx"));
    expect(await recalc(folder, "link.xlsx")).toMatchObject({ status: 0, errors: "" });
    expect(readlinkSync(join(folder, "link.xlsx"))).toBe(to);
    expect(lstatSync(join(folder, "book.xlsx")).isSymbolicLink()).toBe(false);
    expect(read(folder, "book.xlsx")).not.toEqual(stale);
  });

  test("a link whose file is still to be made stays one", async () => {
    const folder = folderWith({ "book.xlsx": stale });
    mkdirSync(join(folder, "shared"));
    symlinkSync("shared/new.xlsx", join(folder, "out.xlsx"));
    expect((await recalc(folder, "book.xlsx", "-o", "out.xlsx")).status).toBe(0);
    expect(readlinkSync(join(folder, "out.xlsx"))).toBe("shared/new.xlsx");
    expect(read(folder, "shared/new.xlsx")).not.toEqual(stale);
  });

  test.each([0o600, 0o640, 0o664, 0o666, 0o755])("its permissions stay, such as %o", async (mode) => {
    const folder = folderWith({ "book.xlsx": stale });
    chmodSync(join(folder, "book.xlsx"), mode);
    expect((await recalc(folder, "book.xlsx")).status).toBe(0);
    expect(statSync(join(folder, "book.xlsx")).mode & 0o7777).toBe(mode);
  });

  test.runIf(isRoot)("its owner and group stay", async () => {
    const folder = folderWith({ "book.xlsx": stale });
    chownSync(join(folder, "book.xlsx"), 1234, 5678);
    expect(await recalc(folder, "book.xlsx")).toMatchObject({ status: 0, errors: "" });
    expect(statSync(join(folder, "book.xlsx"))).toMatchObject({ uid: 1234, gid: 5678 });
  });

  test("other names of it are told", async () => {
    const folder = folderWith({ "book.xlsx": stale });
    linkSync(join(folder, "book.xlsx"), join(folder, "twin.xlsx"));
    expect((await recalc(folder, "book.xlsx")).errors).toMatch(
      /^gylesheet-recalc: book\.xlsx has other names \(hard links\)/,
    );
  });
});

describe("a file is left alone", () => {
  test.each(["book.xlsx", "out.xlsx"])("when %s is read-only, and the way on is told", async (name) => {
    const folder = folderWith({ "book.xlsx": stale, "out.xlsx": stale });
    chmodSync(join(folder, name), 0o444);
    const { status, out, errors } = await recalc(folder, "book.xlsx", "-o", name);
    expect([status, out]).toEqual([1, ""]);
    expect(errors).toBe(
      `gylesheet-recalc: book.xlsx was not written: ${name === "book.xlsx" ? "it" : name} is read-only: allow writing to it, or write the result elsewhere with --output.\n`,
    );
    for (const each of ["book.xlsx", "out.xlsx"]) expect(read(folder, each)).toEqual(stale);
    expect(readdirSync(folder).sort()).toEqual(["book.xlsx", "out.xlsx"]);
  });

  test("when somebody has saved it since it was read, or taken it away", async () => {
    const folder = folderWith({ "book.xlsx": "theirs" });
    const path = join(folder, "book.xlsx");
    await expect(writeFileWhole(path, bytes("ours"), bytes("as read"))).rejects.toThrow(
      new FileRefused("has been saved by someone else since it was read: run this again"),
    );
    expect(read(folder, "book.xlsx")).toEqual(bytes("theirs"));
    await expect(writeFileWhole(join(folder, "gone.xlsx"), bytes("ours"), bytes("as read"))).rejects.toThrow(
      "has been moved or deleted since it was read",
    );
    expect(readdirSync(folder)).toEqual(["book.xlsx"]);
    await writeFileWhole(path, bytes("ours"), bytes("theirs"));
    expect(read(folder, "book.xlsx")).toEqual(bytes("ours"));
  });
});

test.each([
  ["~$book.xlsx", /book\.xlsx seems to be open in Excel \(~\$book\.xlsx lies beside it\)/],
  [".~lock.book.xlsx#", /book\.xlsx seems to be open in LibreOffice \(\.~lock\.book\.xlsx# lies beside it\)/],
])("a workbook beside which %s lies is written, with a warning", async (mark, warning) => {
  const folder = folderWith({ "book.xlsx": stale, [mark]: "someone" });
  const { status, errors } = await recalc(folder, "book.xlsx");
  expect([status, errors]).toEqual([0, expect.stringMatching(warning)]);
  expect(errors.trimEnd().split("\n")).toHaveLength(1);
  expect(read(folder, mark)).toEqual(bytes("someone"));
  // Through a link the mark lies beside the file itself.
  mkdirSync(join(folder, "links"));
  symlinkSync("../book.xlsx", join(folder, "links/mine.xlsx"));
  writeFileSync(join(folder, "book.xlsx"), stale);
  expect((await recalc(folder, "links/mine.xlsx")).errors).toMatch(/seems to be open in/);
});

describe("what a killed run left behind", () => {
  const machine = hostname()
    .replace(/[^\w.]/g, "_")
    .slice(0, 60);
  const dead = (): number => spawnSync(process.execPath, ["-e", ""]).pid;

  test("is cleared by the next one, and nothing else is", async () => {
    const living = spawn(process.execPath, ["-e", "setTimeout(() => {}, 60000)"]);
    try {
      const kept = [
        `.gylesheet-${machine}-${living.pid ?? 0}.tmp`,
        ".gylesheet-elsewhere-1.tmp",
        `.gylesheet-${machine}.tmp`,
        `.gylesheet-${machine}-${dead()}.tmp.xlsx`,
        ".book.xlsx.99999.tmp",
        "notes.tmp",
      ];
      const gone = [`.gylesheet-${machine}-${dead()}.tmp`, ".gylesheet-elsewhere-2.tmp"];
      const folder = folderWith(Object.fromEntries([...kept, ...gone].map((name) => [name, "half"])));
      writeFileSync(join(folder, "book.xlsx"), stale);
      const longAgo = new Date(Date.now() - 2 * 24 * 60 * 60 * 1000);
      utimesSync(join(folder, ".gylesheet-elsewhere-2.tmp"), longAgo, longAgo);
      expect((await recalc(folder, "book.xlsx")).status).toBe(0);
      expect(readdirSync(folder).sort()).toEqual([...kept, "book.xlsx"].sort());
    } finally {
      living.kill();
    }
  });

  test("has the name that is cleared: a run that is killed while it writes leaves no other", async () => {
    const folder = folderWith({ "book.xlsx": "old" });
    const [write] = [writeFileWhole(join(folder, "book.xlsx"), new Uint8Array(60_000_000))];
    const seen = new Set<string>();
    const watch = setInterval(() => {
      for (const name of readdirSync(folder)) seen.add(name);
    }, 1);
    await write;
    clearInterval(watch);
    expect([...seen].sort()).toEqual([`.gylesheet-${machine}-${process.pid}.tmp`, "book.xlsx"]);
  });
});

describe("a result is called what it is", () => {
  const kinds = {
    xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml",
    xlsm: "application/vnd.ms-excel.sheet.macroEnabled.main+xml",
    xltx: "application/vnd.openxmlformats-officedocument.spreadsheetml.template.main+xml",
    xltm: "application/vnd.ms-excel.template.macroEnabled.main+xml",
  } as const;
  const names = Object.keys(kinds) as (keyof typeof kinds)[];
  const bookOfKind = (kind: keyof typeof kinds) =>
    zipParts({ ...parts, "[Content_Types].xml": contentTypesXml(kinds[kind]) });

  test.each(names.flatMap((kind) => names.map((name) => [kind, name] as const)))(
    "an .%s workbook written as .%s",
    async (kind, name) => {
      const folder = folderWith({ [`book.${kind}`]: bookOfKind(kind) });
      const { status, errors } = await recalc(folder, `book.${kind}`, "-o", `out.${name}`);
      if (kind === name) expect([status, errors]).toEqual([0, ""]);
      else {
        expect([status, readdirSync(folder)]).toEqual([1, [`book.${kind}`]]);
        expect(errors).toBe(
          `gylesheet-recalc: book.${kind} is an .${kind} workbook, which programs would not open as out.${name}: end the name of the result with .${kind}.\n`,
        );
      }
    },
  );

  test.each(["out.csv", "out.ods", "out.xls", "out.xlsb", "out", "out.pdf"])(
    "%s is no name for one",
    async (name) => {
      const folder = folderWith({ "book.xlsx": stale });
      const { status, errors } = await recalc(folder, "book.xlsx", "-o", name);
      expect([status, readdirSync(folder)]).toEqual([2, ["book.xlsx"]]);
      expect(errors).toMatch(`gylesheet-recalc: --output ${name} cannot be a workbook: end it with .xlsx, `);
    },
  );
});

describe("a signed workbook", () => {
  test.each([[], ["--values"], ["-o", "out.xlsx"]])("is not written without --force %s", async (...more) => {
    const folder = folderWith({ "book.xlsx": signed(parts) });
    const { status, errors } = await recalc(folder, "book.xlsx", ...more);
    expect([status, errors]).toEqual([
      1,
      "gylesheet-recalc: book.xlsx is signed, and the signature would be void: give --force to have it written all the same.\n",
    ]);
    expect(readdirSync(folder)).toEqual(["book.xlsx"]);
    expect(read(folder, "book.xlsx")).toEqual(signed(parts));
    const forced = await recalc(folder, "book.xlsx", "--force", ...more);
    expect(forced.status).toBe(0);
    expect(forced.errors).toMatch(/was signed: the signature is void now\.\n$/);
  });

  test("whose results are all up to date keeps its signature, and needs no force", async () => {
    const folder = folderWith({ "book.xlsx": signed(parts) });
    await recalc(folder, "book.xlsx", "--force");
    expect(await recalc(folder, "book.xlsx")).toMatchObject({ status: 0, errors: "" });
  });

  test("whose signature was taken away is a workbook like any other", async () => {
    const folder = folderWith({ "book.xlsx": signed(parts, false) });
    expect(await recalc(folder, "book.xlsx")).toMatchObject({ status: 0, errors: "" });
  });
});

test("the season is only read where nothing changes, be it read-only", async () => {
  const folder = folderWith({ "season.xlsx": season() });
  chmodSync(join(folder, "season.xlsx"), 0o444);
  expect(await recalc(folder, "season.xlsx")).toMatchObject({ status: 0, errors: "" });
});
