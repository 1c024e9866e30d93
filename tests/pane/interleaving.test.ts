// Whatever happens while the pane is at work: cells follow the last state, nothing is lost unsaid.
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { add, put, takeOut } from "../../src/instruments/edits.js";
import { findInstrument } from "../../src/instruments/find.js";
import { deleteInstrument } from "../../src/pane/instruments/delete-instrument.js";
import { renameInstrument } from "../../src/pane/instruments/rename-instrument.js";
import {
  addOne,
  coAuthorDeletes,
  coAuthorEdits,
  edit,
  fail,
  glass,
  interleave,
  lock,
  SlowSeason,
  typeFormula,
  undo,
  type Doing,
} from "./slow-season.js";

beforeEach(() => {
  vi.useFakeTimers({ now: new Date("2026-03-01T09:00:00Z") });
});
afterEach(() => {
  vi.useRealTimers();
});

const SEEDS = 15;

const opened = async (seed: number, of = {}): Promise<SlowSeason> => {
  const season = new SlowSeason({ seed, most: 30, of });
  await season.start();
  expect(season.faults()).toEqual([]);
  return season;
};

const after = (ms: number): Promise<unknown> => vi.advanceTimersByTimeAsync(ms);
const settled = async (): Promise<void> => {
  await vi.runAllTimersAsync();
};
const set = ({ pane }: SlowSeason, name: string, at: number): Promise<boolean> =>
  pane.instruments.change((all, now) => put(all, glass(name, at), now), `"${name}" is saved.`);
const shown = ({ book }: SlowSeason, address: string): unknown =>
  book.formulas.find((formula) => formula.address === address)?.value;

const renameSome: Doing = (season, random) => {
  const from = season.pane.instruments.set.instruments.at(0)?.name ?? "Glass A";
  const to = `Glass ${Math.floor(random() * 1000)}`;
  return renameInstrument(season.pane, from, to, () => undefined);
};

const deleteSome: Doing = ({ pane }) =>
  deleteInstrument(pane, pane.instruments.set.instruments.at(-1)?.name ?? "Glass C");

describe("at random moments, on a slow workbook", () => {
  const runs: [string, Doing[]][] = [
    ["edits alone", [edit]],
    ["edits and undo", [edit, edit, undo]],
    ["edits of two people", [edit, coAuthorEdits, typeFormula]],
    ["edits, while the workbook cannot be read now and then", [edit, fail, typeFormula]],
    ["edits, and cells that are locked and opened", [edit, lock, typeFormula]],
    ["a co-author's removals", [edit, coAuthorDeletes, typeFormula, addOne]],
    ["renaming and typing", [renameSome, typeFormula, edit, undo]],
    [
      "everything",
      [edit, undo, addOne, typeFormula, coAuthorEdits, coAuthorDeletes, lock, fail, renameSome, deleteSome],
    ],
  ];
  test.each(runs)("%s: cells follow the last state, and nothing is lost unsaid", async (_, doings) => {
    for (let seed = 1; seed <= SEEDS; seed++) {
      const season = await opened(seed);
      let turn = seed;
      season.answer = (answers) => [...answers, undefined][(turn += 1) % (answers.length + 1)];
      season.whileAsked = () => {
        if (turn % 3 === 0) void typeFormula(season, () => 0.4);
      };
      await interleave(season, doings, seed);
      expect(season.faults(), `seed ${seed}`).toEqual([]);
    }
  });
});

describe("while cells are calculated again", () => {
  // Each cell takes so long that all of this happens in the midst of it.
  const slow = { read: 1, write: 1, find: 1, recalculate: 100 };

  test("an undo has them calculated by what it brings back", async () => {
    const season = await opened(1, slow);
    const before = season.book.formulas;
    void set(season, "Glass A", 30);
    await after(250);
    expect(shown(season, "C3")).not.toBe(before.find(({ address }) => address === "C3")?.value);
    season.undo();
    await settled();
    expect(findInstrument(season.stored, "Glass A")).toMatchObject({ calibrationTemperature: 20 });
    expect(season.faults()).toEqual([]);
    expect(season.book.formulas).toEqual(before);
  });

  test("another edit of the same instrument has them calculated once more", async () => {
    const season = await opened(2, slow);
    void set(season, "Glass A", 30);
    await after(250);
    void set(season, "Glass A", 12);
    await settled();
    expect(findInstrument(season.stored, "Glass A")).toMatchObject({ calibrationTemperature: 12 });
    expect(season.faults()).toEqual([]);
  });

  test("what one pass could not reach is still told after the next", async () => {
    const season = await opened(3, slow);
    season.book.locked = ["C3"];
    void set(season, "Glass A", 30);
    await after(150);
    void set(season, "Glass B", 30);
    await settled();
    expect(season.pane.notices.get("cells")?.details).toEqual(["Season C3: The sheet is protected."]);
    season.book.locked = [];
    void set(season, "Glass A", 31);
    await settled();
    expect(season.pane.notices.get("cells")?.details).toBeUndefined();
    expect(season.faults()).toEqual([]);
  });

  test("a stop leaves the rest to be gone on with, a later edit included", async () => {
    const season = await opened(4, slow);
    void set(season, "Glass A", 30);
    await after(150);
    for (const task of season.pane.tasks.all) task.stop();
    await settled();
    expect(season.faults()).toHaveLength(1);
    expect(season.pane.notices.get("cells")?.text).toMatch(/^Stopped\./);
    season.pane.notices.get("cells")?.actions?.[0]?.run();
    await settled();
    expect(season.faults()).toEqual([]);
  });
});

test("each of several edits that a co-author overrules is told, and can be taken back", async () => {
  const season = await opened(5);
  for (const name of ["Glass A", "Glass B", "Glass C"]) await Promise.all([set(season, name, 25), settled()]);
  const later = "2026-03-01T10:00:00.000Z";
  season.coAuthor((all) => put(put(all, glass("Glass A", 15), later), glass("Glass B", 15), later));
  await settled();
  season.coAuthor((all) => put(all, glass("Glass C", 15), later));
  await settled();
  expect(season.pane.instruments.conflicts.all.map(({ name }) => name)).toEqual([
    "Glass A",
    "Glass B",
    "Glass C",
  ]);
  expect(season.faults()).toEqual([]);
});

describe("renaming", () => {
  const all = (season: SlowSeason): string[] => season.book.formulas.map(({ formula }) => formula);

  test("reaches formulas typed since they were last looked for, and while it asks", async () => {
    const season = await opened(6);
    season.type("Glass A");
    season.answer = () => "formulas";
    season.whileAsked = () => season.type("Glass A");
    const before = all(season);
    void renameInstrument(season.pane, "Glass A", "First glass", () => undefined);
    await settled();
    expect(all(season).filter((formula) => formula.includes("Glass A"))).toEqual([]);
    expect(all(season).filter((formula) => formula.includes("First glass"))).toHaveLength(4);
    expect(season.pane.notices.get("edit")?.text).toMatch(/4 formulas rewritten/);
    season.type("First glass");
    season.undo();
    await settled();
    expect(all(season).slice(0, before.length)).toEqual(before);
    expect(all(season).filter((formula) => formula.includes("Glass A"))).toHaveLength(5);
    expect(season.pane.instruments.set.instruments.map(({ name }) => name)).toEqual([
      "Glass A",
      "Glass B",
      "Glass C",
    ]);
    expect(season.faults()).toEqual([]);
  });

  test("is not undone in formulas that said the new name before", async () => {
    const season = await opened(7);
    const early = season.type("First glass");
    season.answer = () => "formulas";
    void renameInstrument(season.pane, "Glass A", "First glass", () => undefined);
    await settled();
    season.undo();
    await settled();
    expect(season.book.formulas.find(({ address }) => address === early)?.formula).toMatch(/"First glass"/);
    expect(season.faults()).toEqual([]);
  });

  test("to a name that a co-author has just given is refused, and changes nothing", async () => {
    const season = await opened(8, { find: 1, read: 200 });
    season.answer = () => "formulas";
    const before = all(season);
    void renameInstrument(season.pane, "Glass A", "First glass", () => undefined);
    await after(100);
    season.coAuthor((set) => put(set, glass("First glass", 15), "2026-03-01T09:00:00.100Z"));
    await settled();
    expect(all(season)).toEqual(before);
    expect(season.told.map(({ notice }) => notice.text)).toContain(
      'Another instrument of this workbook is called "First glass" now. Give another name.',
    );
    expect(season.faults()).toEqual([]);
  });
});

describe("a number is not given up unasked", () => {
  test("when an instrument is deleted: the question counts what was just typed, what is typed later keeps its number", async () => {
    const season = await opened(9);
    season.type("Glass A");
    season.answer = () => "delete";
    let late = "";
    season.whileAsked = () => {
      late = season.type("Glass A");
    };
    const asked: string[] = [];
    const ask = season.pane.questions.ask.bind(season.pane.questions);
    season.pane.questions.ask = (question) => {
      asked.push(question.text);
      return ask(question);
    };
    void deleteInstrument(season.pane, "Glass A");
    await settled();
    expect(asked[0]).toMatch(/named in 3 formulas, which will show #N\/A/);
    expect(shown(season, "C3")).toBe("#N/A");
    expect(shown(season, late)).toBeTypeOf("number");
    expect(season.pane.notices.get("missing")?.details).toEqual([`Season ${late}: needs "Glass A".`]);
    season.pane.notices.get("missing")?.actions?.[0]?.run();
    await settled();
    expect(shown(season, late)).toBe("#N/A");
    season.undo();
    await settled();
    expect(shown(season, late)).toBeTypeOf("number");
  });

  test("when a co-author deletes it, until the user says so", async () => {
    const season = await opened(10);
    const before = season.book.formulas;
    season.coAuthor((set) => takeOut(set, "Glass A", "2026-03-01T09:00:01.000Z"));
    await settled();
    expect(season.book.formulas).toEqual(before);
    expect(season.pane.notices.get("missing")?.text).toMatch(/^2 formulas need "Glass A", which is not/);
    // Another instrument's formulas follow; these stay.
    void set(season, "Glass B", 25);
    await settled();
    expect(shown(season, "C3")).toBe(before.find(({ address }) => address === "C3")?.value);
    expect(season.faults()).toEqual([]);
  });

  test("when an undo takes away what formulas have come to need", async () => {
    const season = await opened(11);
    void season.pane.instruments.change((all, now) => put(all, glass("New glass", 25), now), "Added.");
    await settled();
    const typed = season.type("New glass");
    season.undo();
    await settled();
    expect(shown(season, typed)).toBeTypeOf("number");
    expect(season.faults()).toEqual([]);
  });

  test("where the workbook has lost its instruments before it was opened: it is told at once", async () => {
    const season = new SlowSeason({ seed: 12, most: 30 });
    const before = season.book.formulas;
    season.book.parts = [];
    await season.start();
    expect(season.pane.notices.get("missing")?.text).toMatch(
      /need "Glass C", "Glass A" and "Glass B", which are/,
    );
    void season.pane.instruments.change((all, now) => add(all, glass("Other glass", 25), now), "Added.");
    await settled();
    expect(season.book.formulas.slice(0, before.length)).toEqual(before);
    // As soon as one is back, its formulas follow.
    void season.pane.instruments.change((all, now) => add(all, glass("Glass A", 25), now), "Added.");
    await settled();
    expect(season.pane.notices.get("missing")?.text).not.toMatch(/"Glass A"/);
    expect(season.faults().filter((fault) => !fault.includes("parts"))).toEqual([]);
  });
});
