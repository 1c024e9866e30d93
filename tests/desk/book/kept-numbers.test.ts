import { describe, expect, test } from "vitest";
import type { CalculatedFormula } from "../../../src/desk/univer/result-interceptor.js";
import { KeptNumbers } from "../../../src/desk/book/kept-numbers.js";
import { missingNotice } from "../../../src/desk/page/missing-notice.js";
import { FormulaError, Values, type FormulaValue } from "../../../src/engine/values.js";
import type { CellValue, Formula, WorkbookModel } from "../../../src/workbook/model.js";

/** Nobody can tell what a formula reads. */
const unknown = Symbol("unknown");
const lost = new FormulaError("#N/A");
const place = { sheet: 0, row: 0, column: 1 };
const text = 'GYLE.HYDROMETER(A1,20,"Old glass")';

/** A workbook with one formula, whose results stand in the file. */
function opened(values: readonly CellValue[], formula: Formula = { text, kind: "plain" }) {
  const cells = values.map((value, row) => ({
    row,
    column: 1,
    value,
    ...(row === 0 ? { formula } : {}),
  }));
  const model = { sheets: [{ name: "Log", cells }] } as unknown as WorkbookModel;
  const now = { formula: text };
  const live = new Map([["0,1", { text: `=${text}`, own: true }]]);
  return { now, numbers: new KeptNumbers(model, [live], () => now.formula) };
}

const calculated = (
  value: FormulaValue,
  input: FormulaValue | typeof unknown = 1.05,
  missing: readonly string[] = ["Old glass"],
): CalculatedFormula => ({
  missing,
  value: () => value,
  inputs: () => (input === unknown ? undefined : [input]),
});

describe("the number of a cell that lacks its instrument", () => {
  test.each<[string, CellValue]>([
    ["a number", 1.0502],
    ["a text", "in spec"],
    ["a truth", false],
  ])("is kept where it is %s", (_, value) => {
    const { numbers } = opened([value]);
    expect(numbers.see(place, calculated(lost))).toBe(value);
    expect(numbers.missingFor(place)).toEqual(["Old glass"]);
    expect(numbers.all).toEqual([{ sheet: "Log", address: "B1", cells: 1, missing: ["Old glass"] }]);
  });

  test.each<[string, CellValue]>([
    ["nothing", null],
    ["an empty text", ""],
    ["an error", { error: "#N/A" }],
  ])("is none where the file has %s", (_, value) => {
    const { numbers } = opened([value]);
    expect(numbers.see(place, calculated(lost))).toBeUndefined();
    expect(numbers.all).toEqual([]);
  });

  test("goes with what it was calculated from, and comes back with it", () => {
    const { numbers } = opened([1.0502]);
    numbers.see(place, calculated(lost));
    numbers.isOpen();
    expect(numbers.see(place, calculated(lost, 1.06))).toBeUndefined();
    expect([numbers.missingFor(place), numbers.all]).toEqual([undefined, []]);
    expect(numbers.see(place, calculated(lost, 1.05 + 1e-15))).toBe(1.0502);
    expect(numbers.see(place, calculated(lost, new Values([[1.05]])))).toBeUndefined();
  });

  test("goes where nobody can tell what it is calculated from", () => {
    const { numbers } = opened([1.0502]);
    expect(numbers.see(place, calculated(lost, unknown))).toBe(1.0502);
    numbers.isOpen();
    expect(numbers.see(place, calculated(lost, unknown))).toBeUndefined();
  });

  test("goes with its formula", () => {
    const { numbers, now } = opened([1.0502]);
    numbers.see(place, calculated(lost));
    numbers.isOpen();
    now.formula = text.replace("20", "21");
    expect([numbers.missingFor(place), numbers.all]).toEqual([undefined, []]);
    expect(numbers.see(place, calculated(lost))).toBeUndefined();
  });

  test("goes when it is asked for without, but not when what it lacked is another by now", () => {
    const { numbers } = opened([1.0502]);
    numbers.see(place, calculated(lost));
    numbers.isOpen();
    numbers.ask([place]);
    expect(numbers.see(place, calculated(lost, 1.05, ["New glass"]))).toBe(1.0502);
    numbers.ask([place]);
    expect(numbers.see(place, calculated(lost, 1.05, ["NEW GLASS "]))).toBeUndefined();
    expect(numbers.isNeeded).toBe(false);
  });

  test("is over once the instrument is there, so that deleting it shows the error", () => {
    const { numbers } = opened([1.0502]);
    numbers.see(place, calculated(lost));
    numbers.isOpen();
    expect(numbers.see(place, calculated(1.0503, 1.05, []))).toBeUndefined();
    expect(numbers.see(place, calculated(lost))).toBeUndefined();
  });

  test("is none of a cell that was right when the workbook was opened", () => {
    const { numbers } = opened([1.0502]);
    expect(numbers.see(place, calculated(1.0502, 1.05, []))).toBeUndefined();
    numbers.isOpen();
    expect(numbers.see(place, calculated(lost))).toBeUndefined();
  });

  test("is all of an area that one formula fills", () => {
    const area = { top: 0, left: 1, bottom: 1, right: 1 };
    const { numbers } = opened([1.0502, { error: "#VALUE!" }], { text, kind: "spill", area });
    const kept = numbers.see(place, calculated(new Values([[lost], [lost]])));
    expect(kept).toEqual(new Values([[1.0502], [new FormulaError("#VALUE!")]]));
    expect(numbers.all[0]?.cells).toBe(2);
  });
});

test("the notice counts cells, names instruments once, and leads to each cell", () => {
  const kept = { sheet: "Log", address: "B1", cells: 2, missing: ["Old glass"] };
  expect(missingNotice([], () => false)).toBeUndefined();
  expect(missingNotice([{ ...kept, cells: 1 }], () => false)?.text).toBe(
    '1 cell keeps what the file has, because it needs "Old glass", which is not in this workbook. Add or import the instrument in the pane before you change a reading, or the cells that depend on it show #N/A.',
  );
  const two = missingNotice([kept, { ...kept, missing: ["OLD GLASS", "Prism"] }], () => false);
  expect(two?.text).toMatch(/^4 cells keep .* they need "Old glass" and "Prism", which are not /);
  expect(two?.details).toEqual(['Log B1: needs "Old glass".', 'Log B1: needs "OLD GLASS", "Prism".']);
});
