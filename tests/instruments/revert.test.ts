import fc from "fast-check";
import { expect, test } from "vitest";
import { add, put, rename, takeOut } from "../../src/instruments/edits.js";
import { EditRefused } from "../../src/instruments/edit-refused.js";
import { findInstrument } from "../../src/instruments/find.js";
import { changedNames } from "../../src/instruments/merge.js";
import { revert } from "../../src/instruments/revert.js";
import { formatSet, parseSet, type InstrumentSet } from "../../src/instruments/set.js";
import { instruments } from "../support/instruments.js";

const [now, later] = ["2026-03-14T09:30:00.000Z", "2026-03-14T10:30:00.000Z"];
const names = (set: InstrumentSet): string[] => set.instruments.map(({ name }) => name);
const prism = findInstrument(instruments, "Pocket prism");
if (prism?.kind !== "refractometer") throw new Error("the fixture lost its prism");

test("whatever an edit did is undone, in the old order, and can be read again", () => {
  const name = fc.constantFrom(...names(instruments), "New one", "Another");
  const step = fc.oneof(
    name.map((n) => (set: InstrumentSet) => put(set, { ...prism, name: n, wortFactor: 1.07 }, now)),
    name.map((n) => (set: InstrumentSet) => takeOut(set, n, now)),
    fc.tuple(name, fc.constantFrom("Third", "Fourth")).map(
      ([from, to]) =>
        (set: InstrumentSet) =>
          findInstrument(set, from) && !findInstrument(set, to) ? rename(set, from, to, now) : set,
    ),
  );
  fc.assert(
    fc.property(fc.array(step, { minLength: 1, maxLength: 4 }), (steps) => {
      const after = steps.reduce((so, edit) => edit(so), instruments);
      const back = revert(instruments, after);
      if (changedNames(instruments, after).length === 0) {
        expect(back).toBeUndefined();
        return;
      }
      const undone = back?.(after, later) ?? after;
      expect(changedNames(instruments, undone)).toEqual([]);
      expect(names(undone)).toEqual(names(instruments));
      expect(parseSet(formatSet(undone))).toEqual(undone);
    }),
  );
});

test("what others did meanwhile stays, and what they did to the same instrument is not undone unseen", () => {
  const after = put(instruments, { ...prism, wortFactor: 1.07 }, now);
  const back = revert(instruments, after);
  const meanwhile = add(after, { ...prism, name: "Theirs" }, now);
  const undone = back?.(meanwhile, later);
  expect(undone && findInstrument(undone, "Pocket prism")).toMatchObject({ wortFactor: prism.wortFactor });
  expect(undone && findInstrument(undone, "Theirs")).toBeDefined();
  const changed = put(after, { ...prism, wortFactor: 1.09 }, now);
  expect(() => back?.(changed, later)).toThrow(EditRefused);
  expect(() => back?.(takeOut(after, "Pocket prism", now), later)).toThrow(
    '"Pocket prism" has been changed since',
  );
});

test("a new instrument never takes the place of one that has its name, nor does a renamed one", () => {
  expect(() => add(instruments, { ...prism, name: "POCKET prism" }, now)).toThrow(EditRefused);
  expect(() => rename(instruments, "Bobber", "pocket prism", now)).toThrow('called "pocket prism" now');
  expect(() => rename(instruments, "Gone", "New", now)).toThrow('"Gone" is not in this workbook any more');
});
