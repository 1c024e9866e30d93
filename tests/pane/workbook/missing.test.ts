import { expect, test } from "vitest";
import { takeOut } from "../../../src/instruments/edits.js";
import { noInstruments } from "../../../src/instruments/set.js";
import { Missing } from "../../../src/pane/workbook/missing.js";
import type { OurFormula } from "../../../src/pane/ports/formulas-port.js";
import { instruments } from "../../support/instruments.js";

const formula = (address: string, value: unknown, ...names: string[]): OurFormula => ({
  sheet: "Log",
  address,
  formula: `=${address}`,
  value,
  instruments: names,
  anyInstrument: names.length === 0,
});

const all = [
  formula("A1", 1.05, "Bobber"),
  formula("A2", "#N/A", "Gone glass"),
  formula("A3", 1.05, "Gone glass"),
  formula("A4", "", "Bobber", "GONE glass"),
  // Works out which instrument it uses.
  formula("A5", 1.05),
  formula("A6", "#N/A"),
];
const kept = (missing: Missing): string[] => missing.among(all).map(({ address }) => address);

test("a result that needs a missing instrument is kept, an error is not", () => {
  const missing = new Missing();
  missing.follow(instruments);
  expect(kept(missing)).toEqual(["A3", "A4", "A5"]);
  missing.agree(all.slice(2, 3));
  expect(kept(missing)).toEqual(["A4", "A5"]);
});

test("before the instruments are known, nothing is said of them", () => {
  expect(kept(new Missing())).toEqual([]);
});

test("a formula that works its instrument out follows, as long as none has gone", () => {
  const whole = all.filter(({ address }) => ["A1", "A5"].includes(address));
  const missing = new Missing();
  missing.follow(instruments);
  expect(missing.among(whole)).toEqual([]);
  missing.follow(takeOut(instruments, "Old sixty", "2026-03-14T09:30:00.000Z"));
  expect(missing.among(whole).map(({ address }) => address)).toEqual(["A5"]);
  missing.follow(instruments);
  expect(missing.among(whole)).toEqual([]);
});

test("in a workbook without instruments it may rest on lost ones; one that is typed later does not", () => {
  const early = formula("A5", 1.05);
  const missing = new Missing();
  missing.follow(noInstruments);
  expect(missing.among([early])).toEqual([early]);
  missing.follow(instruments);
  expect(missing.among([early, formula("B5", 1.05)])).toEqual([early]);
});

test("what was agreed to holds only until the instrument is back", () => {
  const missing = new Missing();
  const without = takeOut(instruments, "Bobber", "2026-03-14T09:30:00.000Z");
  missing.follow(instruments);
  missing.agree(all.slice(0, 1));
  missing.follow(without);
  expect(kept(missing)).not.toContain("A1");
  missing.follow(instruments);
  missing.follow(without);
  expect(kept(missing)).toContain("A1");
});
