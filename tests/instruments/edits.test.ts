import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compareInstruments, takeIn } from "../../src/instruments/comparison.js";
import { freeName, put, rename, takeOut } from "../../src/instruments/edits.js";
import { findInstrument } from "../../src/instruments/find.js";
import { formatSet, noInstruments, parseSet, type InstrumentSet } from "../../src/instruments/set.js";
import { instruments } from "../support/instruments.js";

const now = "2026-03-14T09:30:00.000Z";
const names = (set: InstrumentSet): string[] => set.instruments.map(({ name }) => name);
const prism = findInstrument(instruments, "Pocket prism");
if (prism?.kind !== "refractometer") throw new Error("the fixture lost its prism");

describe("edits", () => {
  test("a profile takes the place of the one with its name, dated", () => {
    const set = put(instruments, { ...prism, name: "pocket PRISM", wortFactor: 1.03 }, now);
    expect(set.instruments).toHaveLength(instruments.instruments.length);
    expect(findInstrument(set, "Pocket prism")).toEqual({
      ...prism,
      name: "pocket PRISM",
      wortFactor: 1.03,
      edited: now,
    });
  });

  test("a profile taken out leaves a note, and loses it when it comes back", () => {
    const without = takeOut(instruments, "POCKET prism", now);
    expect(names(without)).not.toContain("Pocket prism");
    expect(without.removed).toEqual([{ name: "Pocket prism", edited: now }]);
    expect(put(without, prism, now).removed).toEqual([]);
    expect(takeOut(instruments, "not there", now)).toBe(instruments);
  });

  test("a renamed profile keeps its place, and its old name counts as taken out", () => {
    const set = rename(instruments, "Pocket prism", "Brewhouse prism", now);
    expect(names(set).indexOf("Brewhouse prism")).toBe(names(instruments).indexOf("Pocket prism"));
    expect(set.removed).toEqual([{ name: "Pocket prism", edited: now }]);
    const cased = rename(instruments, "Pocket prism", "POCKET PRISM", now);
    expect(cased.removed).toBeUndefined();
    expect(names(cased)).toContain("POCKET PRISM");
  });

  test("whatever is done, the set can be read again", () => {
    const name = fc.constantFrom(...names(instruments), "New one", "pocket prism", "ÄÖ");
    const step = fc.oneof(
      name.map((n) => (set: InstrumentSet) => put(set, { ...prism, name: n }, now)),
      name.map((n) => (set: InstrumentSet) => takeOut(set, n, now)),
      fc.tuple(name, name).map(
        ([from, to]) =>
          (set: InstrumentSet) =>
            findInstrument(set, from) ? rename(set, from, freeName(set, to), now) : set,
      ),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
        const set = steps.reduce((so, edit) => edit(so), instruments);
        expect(parseSet(formatSet(set))).toEqual(set);
      }),
    );
  });
});

describe("a file of instruments beside a workbook's", () => {
  const file: InstrumentSet = {
    version: 1,
    instruments: [
      { ...prism, edited: "2020-01-01T00:00:00Z" },
      {
        name: "bobber",
        kind: "floating",
        scale: "SG",
        pairs: [{ reading: 1.04, true: 1.045 }],
      },
      { ...prism, name: "Second prism" },
    ],
  };

  test("is compared by what each says, not by when it was said", () => {
    expect(compareInstruments(instruments, file).map(({ same, present }) => [present?.name, same])).toEqual([
      ["Pocket prism", true],
      ["Bobber", false],
      [undefined, false],
    ]);
  });

  test("changes nothing that was not chosen", () => {
    const kept = takeIn(instruments, compareInstruments(instruments, file), () => "keep", now);
    expect(kept.instruments.slice(0, -1)).toEqual(instruments.instruments);
    expect(names(kept).at(-1)).toBe("Second prism");
  });

  test("replaces, or comes in beside what is there, as chosen", () => {
    const incoming = compareInstruments(instruments, file);
    const replaced = takeIn(instruments, incoming, () => "replace", now);
    expect(findInstrument(replaced, "Bobber")).toMatchObject({ pairs: [{ reading: 1.04, true: 1.045 }] });
    const both = takeIn(instruments, incoming, () => "both", now);
    expect(findInstrument(both, "Bobber")).toEqual(findInstrument(instruments, "Bobber"));
    expect(findInstrument(both, "bobber 2")).toMatchObject({ pairs: [{ reading: 1.04, true: 1.045 }] });
  });

  test("is looked at again where the workbook changed after the comparison", () => {
    const incoming = compareInstruments(noInstruments, file);
    expect(takeIn(instruments, incoming, () => "keep", now).instruments.slice(0, -1)).toEqual(
      instruments.instruments,
    );
  });
});
