import { describe, expect, test } from "vitest";
import { Keeper, NothingReadable, type PartStore } from "../../src/instruments/keeper.js";
import { partNamespace, readPart, writePart } from "../../src/instruments/part.js";
import type { Profile } from "../../src/instruments/schema.js";
import type { InstrumentSet } from "../../src/instruments/set.js";

const glass = (name: string, edited: string, division = 0.001): Profile => ({
  name,
  edited,
  kind: "hydrometer",
  scale: "SG",
  temperatureUnit: "C",
  calibrationTemperature: 20,
  division,
  read: "level",
});

const [january, february, march] = ["2026-01-10T09:00:00Z", "2026-02-10T09:00:00Z", "2026-03-10T09:00:00Z"];

const setOf = (...instruments: Profile[]): InstrumentSet => ({ version: 1, instruments });
const broken = `<instruments xmlns="${partNamespace}">{"version":1,</instruments>`;

/** A workbook's parts in memory, as two copies of the add-in may share it. */
class Parts implements PartStore {
  writes = 0;
  constructor(public texts: string[] = []) {}
  read = () => Promise.resolve([...this.texts]);
  write = (xml: string, insteadOf: readonly string[]) => {
    this.writes++;
    this.texts = [...this.texts.filter((text) => !insteadOf.includes(text)), xml];
    return Promise.resolve();
  };
}

const add =
  (...profiles: Profile[]) =>
  (set: InstrumentSet): InstrumentSet => ({ ...set, instruments: [...set.instruments, ...profiles] });

const namesIn = (parts: Parts) =>
  parts.texts.map((xml) =>
    readPart(xml)
      .instruments.map(({ name }) => name)
      .sort(),
  );

test("a workbook without a part has no instruments, and looking writes nothing", async () => {
  const parts = new Parts();
  expect(await new Keeper(parts).refresh()).toMatchObject({
    set: { instruments: [] },
    refused: [],
    changed: [],
  });
  expect(parts.writes).toBe(0);
});

test("an edit lands in one part and names what changed", async () => {
  const parts = new Parts();
  const keeper = new Keeper(parts);
  expect((await keeper.edit(add(glass("Old", january)))).changed).toEqual(["Old"]);
  expect((await keeper.edit(add(glass("New", january)))).changed).toEqual(["New"]);
  expect(namesIn(parts)).toEqual([["New", "Old"]]);
  expect((await keeper.refresh()).changed).toEqual([]);
  expect(parts.writes).toBe(2);
});

test("instruments of a workbook that cannot be written to are read all the same, and brought together later", async () => {
  const parts = new Parts([writePart(setOf(glass("Old", january))), writePart(setOf(glass("New", january)))]);
  const { write } = parts;
  parts.write = () => Promise.reject(new Error("read only"));
  const keeper = new Keeper(parts);
  const news = await keeper.refresh();
  expect(news.set?.instruments.map(({ name }) => name)).toEqual(["Old", "New"]);
  expect(news.unwritten).toEqual(new Error("read only"));
  await expect(keeper.edit(add(glass("Third", january)))).rejects.toThrow("read only");
  expect(parts.texts).toHaveLength(2);
  parts.write = write;
  expect((await keeper.refresh()).unwritten).toBeUndefined();
  expect(namesIn(parts)).toEqual([["New", "Old"]]);
});

test("an own edit that comes back from the workbook is no one else's", async () => {
  const parts = new Parts();
  const keeper = new Keeper(parts);
  // Fields in another order than a part has them.
  const { name, edited, ...rest } = glass("Mine", january);
  await keeper.edit(add({ ...rest, edited, name }));
  expect(await keeper.refresh()).toMatchObject({ changed: [], overruled: [] });
  expect(parts.writes).toBe(1);
});

test("a set that could not be read again is not written", async () => {
  const parts = new Parts();
  const twice = add(glass("Same", january), glass("SAME", january));
  await expect(new Keeper(parts).edit(twice)).rejects.toThrow("another name");
  expect(parts.writes).toBe(0);
});

test("edits started at the same moment do not cross", async () => {
  const parts = new Parts();
  const keeper = new Keeper(parts);
  await Promise.all(["A", "B", "C"].map((name) => keeper.edit(add(glass(name, january)))));
  expect(namesIn(parts)).toEqual([["A", "B", "C"]]);
});

test("an edit that fails writes nothing and does not stop the next", async () => {
  const parts = new Parts();
  const keeper = new Keeper(parts);
  await expect(
    keeper.edit(() => {
      throw new Error("no");
    }),
  ).rejects.toThrow("no");
  expect(parts.texts).toEqual([]);
  await keeper.edit(add(glass("A", january)));
  expect(namesIn(parts)).toEqual([["A"]]);
});

describe("two people on one workbook", () => {
  const shared = () => {
    const parts = new Parts([writePart(setOf(glass("A", january), glass("B", january)))]);
    return { parts, mine: new Keeper(parts), theirs: new Keeper(parts) };
  };
  const divide = (name: string, edited: string, division: number) => (set: InstrumentSet) => ({
    ...set,
    instruments: set.instruments.map((each) => (each.name === name ? glass(name, edited, division) : each)),
  });

  test("see each other's edits of different instruments", async () => {
    const { mine, theirs } = shared();
    await Promise.all([mine.refresh(), theirs.refresh()]);
    await mine.edit(divide("A", february, 0.002));
    const news = await theirs.edit(divide("B", march, 0.0005));
    expect([...news.changed].sort()).toEqual(["A", "B"]);
    expect((await mine.refresh()).changed).toEqual(["B"]);
  });

  test("are not told of an old state that gave way to an edit", async () => {
    const { mine, theirs } = shared();
    await Promise.all([mine.refresh(), theirs.refresh()]);
    await theirs.edit(divide("A", march, 0.0005));
    expect((await mine.refresh()).overruled).toEqual([]);
  });

  test("of one instrument: the later edit stands, and who made the other is told", async () => {
    const { mine, theirs } = shared();
    await Promise.all([mine.refresh(), theirs.refresh()]);
    await mine.edit(divide("A", february, 0.002));
    await theirs.edit(divide("A", march, 0.0005));
    expect((await mine.refresh()).overruled).toMatchObject([
      { name: "A", profile: { division: 0.002 }, by: { division: 0.0005 } },
    ]);
    expect((await mine.refresh()).overruled).toEqual([]);
  });

  test("of one instrument, the older saved last: the later edit comes back, and the other is told of", async () => {
    const parts = new Parts([writePart(setOf(glass("A", march, 0.0005)))]);
    const keeper = new Keeper(parts);
    await keeper.refresh();
    parts.texts = [writePart(setOf(glass("A", february, 0.002)))]; // a co-author saved over it, with an older edit
    const after = await keeper.refresh();
    expect(after.set?.instruments).toEqual([glass("A", march, 0.0005)]);
    expect(after.overruled).toMatchObject([{ name: "A", profile: { division: 0.002 } }]);
    expect(readPart(parts.texts[0] ?? "").instruments).toEqual([glass("A", march, 0.0005)]);
  });

  test("that saved over each other: what was lost comes back", async () => {
    const { parts, mine } = shared();
    await mine.edit(add(glass("C", february)));
    parts.texts = [writePart(setOf(glass("A", january), glass("B", january)))];
    await mine.refresh();
    expect(namesIn(parts)).toEqual([["A", "B", "C"]]);
  });

  test("do not write for ever because their lists stand in another order", async () => {
    const { parts, mine, theirs } = shared();
    await mine.refresh();
    parts.texts = [writePart(setOf(glass("B", january), glass("A", january)))];
    await Promise.all([mine.refresh(), theirs.refresh(), mine.refresh()]);
    expect(parts.writes).toBe(0);
  });

  test("may leave two parts, which become one with all that was in either", async () => {
    const parts = new Parts([writePart(setOf(glass("A", january))), writePart(setOf(glass("B", february)))]);
    const { set } = await new Keeper(parts).refresh();
    expect(set?.instruments).toHaveLength(2);
    expect(namesIn(parts)).toEqual([["A", "B"]]);
  });

  test("may leave two parts that disagree: the later edit stands, and the other is told of", async () => {
    const parts = new Parts([
      writePart(setOf(glass("A", february, 0.002))),
      writePart(setOf(glass("A", january, 0.0005))),
    ]);
    const { set, overruled } = await new Keeper(parts).refresh();
    expect(set?.instruments).toEqual([glass("A", february, 0.002)]);
    expect(overruled).toMatchObject([{ name: "A", profile: { division: 0.0005 } }]);
  });

  test("a removal is not undone by an older copy", async () => {
    const { parts, mine } = shared();
    await mine.edit((set) => ({
      ...set,
      instruments: set.instruments.filter(({ name }) => name !== "A"),
      removed: [{ name: "A", edited: february }],
    }));
    parts.texts = [writePart(setOf(glass("A", january), glass("B", january)))];
    expect((await mine.refresh()).set?.instruments.map(({ name }) => name)).toEqual(["B"]);
  });
});

describe("a part that cannot be read", () => {
  test("is reported and kept, and nothing is written beside it unasked", async () => {
    const parts = new Parts([broken]);
    const keeper = new Keeper(parts);
    expect(await keeper.refresh()).toMatchObject({
      set: undefined,
      refused: [{ because: "unreadable", xml: broken }],
    });
    await expect(keeper.edit(add(glass("A", january)))).rejects.toThrow(NothingReadable);
    expect(parts.texts).toEqual([broken]);
  });

  test("stays where it is when a new set is started beside it", async () => {
    const parts = new Parts([broken]);
    const keeper = new Keeper(parts);
    await keeper.startBeside();
    await keeper.edit(add(glass("A", january)));
    expect(parts.texts).toHaveLength(2);
    expect(parts.texts[0]).toBe(broken);
    expect(await new Keeper(parts).refresh()).toMatchObject({
      set: { instruments: [{ name: "A" }] },
      refused: [{ xml: broken }],
    });
  });

  test("of a later version is kept as well", async () => {
    const later = `<instruments xmlns="${partNamespace}">{"version":7}</instruments>`;
    const news = await new Keeper(new Parts([later])).refresh();
    expect(news.refused[0]?.because).toBe("newer");
  });

  test("does not take away the instruments that are known", async () => {
    const parts = new Parts([writePart(setOf(glass("A", january)))]);
    const keeper = new Keeper(parts);
    await keeper.refresh();
    parts.texts = [broken];
    expect(await keeper.refresh()).toMatchObject({ set: undefined, changed: [] });
    expect(parts.texts).toEqual([broken]);
    expect((await keeper.startBeside()).set?.instruments).toHaveLength(1);
  });
});
