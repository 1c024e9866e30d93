import { describe, expect, test } from "vitest";
import { mergeSets } from "../../src/instruments/merge.js";
import type { RefractometerProfile } from "../../src/instruments/schema.js";
import type { InstrumentSet } from "../../src/instruments/set.js";

const prism = (name: string, wortFactor: number, edited?: string): RefractometerProfile => ({
  name,
  kind: "refractometer",
  scale: "BX",
  temperatureUnit: "C",
  compensates: true,
  wortFactor,
  ...(edited === undefined ? {} : { edited }),
});

const set = (...instruments: RefractometerProfile[]): InstrumentSet => ({ version: 1, instruments });
const factors = ({ instruments }: InstrumentSet): unknown[] =>
  instruments.map((each) => [each.name, (each as RefractometerProfile).wortFactor]);

const MONDAY = "2026-03-02T08:00:00Z";
const TUESDAY = "2026-03-03T08:00:00Z";

test("instruments of both sides are kept", () => {
  const { set: merged, overruled } = mergeSets(set(prism("A", 1)), set(prism("B", 1.04)));
  expect(factors(merged)).toEqual([
    ["A", 1],
    ["B", 1.04],
  ]);
  expect(overruled).toEqual([]);
});

describe("of one instrument edited on both sides", () => {
  test("the later edit stands, whichever side it is on, and the other is reported", () => {
    const old = prism("A", 1, MONDAY);
    const late = prism("a ", 1.02, TUESDAY);
    for (const [mine, theirs] of [
      [old, late],
      [late, old],
    ] as const) {
      const { set: merged, overruled } = mergeSets(set(mine), set(theirs));
      expect(factors(merged)).toEqual([["a ", 1.02]]);
      expect(overruled).toEqual([{ name: "A", profile: old, by: late }]);
    }
  });

  test("times are compared as times, not as text", () => {
    const early = prism("A", 1, "2026-03-03T09:00:00+02:00"); // 07:00 UTC
    expect(factors(mergeSets(set(early), set(prism("A", 1.02, TUESDAY))).set)).toEqual([["A", 1.02]]);
  });

  test("a dated edit stands against an undated one", () => {
    expect(factors(mergeSets(set(prism("A", 1.02, MONDAY)), set(prism("A", 1))).set)).toEqual([["A", 1.02]]);
  });

  test("nothing is reported where both say the same", () => {
    expect(mergeSets(set(prism("A", 1, MONDAY)), set(prism("A", 1, MONDAY))).overruled).toEqual([]);
  });
});

describe("a removal", () => {
  const removed: InstrumentSet = { version: 1, instruments: [], removed: [{ name: "A", edited: TUESDAY }] };

  test("stands against an older edit, is remembered, and reports what it took away", () => {
    const { set: merged, overruled } = mergeSets(set(prism("A", 1, MONDAY)), removed);
    expect(merged.instruments).toEqual([]);
    expect(merged.removed).toEqual([{ name: "A", edited: "2026-03-03T08:00:00.000Z" }]);
    expect(overruled).toMatchObject([{ name: "A", by: undefined }]);
  });

  test("gives way to a later edit", () => {
    const { set: merged } = mergeSets(removed, set(prism("A", 1, "2026-03-04T08:00:00Z")));
    expect(factors(merged)).toEqual([["A", 1]]);
    expect(merged.removed).toBeUndefined();
  });
});
