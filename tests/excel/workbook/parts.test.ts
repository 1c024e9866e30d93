import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { excelParts } from "../../../src/excel/workbook/parts.js";
import { Keeper } from "../../../src/instruments/keeper.js";
import { partNamespace, writePart } from "../../../src/instruments/part.js";
import { FORMAT_VERSION, type InstrumentSet } from "../../../src/instruments/set.js";
import { FakeWorkbook } from "../fake-workbook.js";
import { ExcelError } from "../remote.js";

const instrument = (name: string, wortFactor = 1.04): InstrumentSet["instruments"][number] => ({
  name,
  kind: "refractometer",
  scale: "BX",
  temperatureUnit: "C",
  compensates: true,
  wortFactor,
  edited: "2026-03-01T08:00:00Z",
});
const setOf = (...names: string[]): InstrumentSet => ({
  version: FORMAT_VERSION,
  instruments: names.map((name) => instrument(name)),
});

const foreign = '<notes xmlns="urn:example:notes">ours is not to touch</notes>';
let book: FakeWorkbook;
const xmlOfOurs = (): string[] =>
  book.parts.filter((p) => p.namespace === partNamespace).map(({ xml }) => xml);

beforeEach(() => {
  book = new FakeWorkbook().open();
  book.part("urn:example:notes", foreign);
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe("the instruments of a workbook", () => {
  test("are read from every part in our namespace", async () => {
    const store = excelParts(() => undefined);
    expect(await store.read()).toEqual([]);
    for (const name of ["One", "Two"]) book.part(partNamespace, writePart(setOf(name)));
    expect(await store.read()).toEqual([writePart(setOf("One")), writePart(setOf("Two"))]);
  });

  test("two parts become one, and a part of another namespace stays", async () => {
    for (const name of ["One", "Two"]) book.part(partNamespace, writePart(setOf(name)));
    const written = vi.fn();
    const { set } = await new Keeper(excelParts(written)).refresh();
    expect(set?.instruments.map(({ name }) => name)).toEqual(["One", "Two"]);
    expect(xmlOfOurs()).toHaveLength(1);
    expect(book.parts.map(({ xml }) => xml)).toContain(foreign);
    expect(written).toHaveBeenCalledOnce();
  });

  test("only the parts that were given make way", async () => {
    book.part(partNamespace, "<damaged");
    book.part(partNamespace, writePart(setOf("One")));
    await excelParts(() => undefined).write(writePart(setOf("Two")), [writePart(setOf("One"))]);
    expect(xmlOfOurs()[0]).toBe("<damaged");
    expect(xmlOfOurs()).toHaveLength(2);
    expect(await excelParts(() => undefined).read()).toContainEqual(expect.stringContaining('"Two"'));
  });

  test("what was written can be read again", async () => {
    const keeper = new Keeper(excelParts(() => undefined));
    await keeper.edit(() => setOf('Glass "5" <→ 🍺 & more>'));
    const { set } = await new Keeper(excelParts(() => undefined)).refresh();
    expect(set?.instruments.map(({ name }) => name)).toEqual(['Glass "5" <→ 🍺 & more>']);
  });

  test("nothing is lost when Excel fails before the old part is gone", async () => {
    book.part(partNamespace, writePart(setOf("One")));
    const written = vi.fn();
    const store = excelParts(written);
    book.queue.before = (sync) => {
      if (sync === 4) throw new ExcelError("AccessDenied");
    };
    await expect(store.write(writePart(setOf("Two")), xmlOfOurs())).rejects.toThrow(
      "protected, or opened for reading only",
    );
    expect(xmlOfOurs()).toHaveLength(2);
    expect(written).not.toHaveBeenCalled();
  });
});
