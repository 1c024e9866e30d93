// One cell of a result is calculated alone, and comes to what it is among all the others.
import { describe, expect, test } from "vitest";
import { catalogue, specNamed } from "../../src/functions/catalogue.js";
import { evaluate } from "../../src/functions/evaluate.js";
import { explain } from "../../src/functions/explain.js";
import { partFor, resultAt, resultShape } from "../../src/functions/one-cell.js";
import { workedExamples } from "../e2e/worked-examples.js";
import { instruments } from "../support/instruments.js";

/** The arguments of a worked example, each for so many rows; lists of cells stay as they are. */
function rowsOf(name: string, rows: number): readonly unknown[] {
  const { args = [] } = workedExamples[name] ?? {};
  return args.map((arg) =>
    Array.isArray(arg) || typeof arg === "string" ? arg : Array.from({ length: rows }, () => [arg]),
  );
}

for (const { name } of catalogue)
  test(`${name}: any cell by itself is the cell of the whole`, () => {
    const args = rowsOf(name, 3);
    const all = evaluate(name, args, instruments);
    expect(resultShape(name, args, instruments)).toEqual({ rows: all.length, columns: all[0]?.length });
    for (const [r, line] of all.entries())
      for (const [c, cell] of line.entries()) {
        expect(resultAt(name, args, r, c, instruments)).toEqual(cell);
        expect(explain(name, args, r, c, instruments).result).toEqual(cell);
      }
  });

describe("a cell among different ones", () => {
  const readings = [[1.03], ["x"], [""], [1.06]];
  const args = [readings, [[20, 30]]];

  test("is that of its own row and column", () => {
    const all = evaluate("HYDROMETER", args, instruments);
    expect(all).toHaveLength(4);
    for (const [r, line] of all.entries())
      for (const [c, cell] of line.entries())
        expect(resultAt("HYDROMETER", args, r, c, instruments)).toEqual(cell);
  });

  test("is the error of all where the shapes do not go together", () => {
    const wrong = [readings, [[20], [20], [20]]];
    const [[error] = []] = evaluate("HYDROMETER", wrong, instruments);
    expect(resultShape("HYDROMETER", wrong, instruments)).toEqual({ rows: 1, columns: 1 });
    expect(resultAt("HYDROMETER", wrong, 0, 0, instruments)).toEqual(error);
    expect(explain("HYDROMETER", wrong, 0, 0, instruments).result).toEqual(error);
  });

  test("of SEASON is refused as the whole is, where it is given more than columns", () => {
    const wide = [[[1.05, 1.06]], [[20, 20]], [[1.01, 1.01]], [[20, 20]]];
    const [[error] = []] = evaluate("SEASON", wide, instruments);
    expect(resultAt("SEASON", wide, 0, 0, instruments)).toEqual(error);
  });
});

test("an empty cell among names of instruments is not taken out from among them", () => {
  const spec = specNamed("HYDROMETER");
  const named = [[""], ["Starting glass"], [0]];
  const args = [[[1.05], [1.05], [1.05]], [[20]], named];
  expect([0, 1, 2].map((row) => partFor(spec, args, row, 0).args[2])).toEqual([
    named,
    [["Starting glass"]],
    named,
  ]);
  expect(partFor(spec, [args[0] ?? [], [[20]], [[""], [""], [0]]], 2, 0).args[2]).toEqual([[0]]);
});

test("only the one is calculated: the readings beside it are not even looked at", () => {
  let looks = 0;
  const watched = (value: number): unknown[] => [
    {
      get code() {
        looks += 1;
        return value;
      },
    },
  ];
  const readings = [watched(1), [1.05], watched(2)];
  expect(resultAt("HYDROMETER", [readings, [[20]]], 1, 0, instruments)).toBeCloseTo(1.05, 4);
  expect(explain("HYDROMETER", [readings, [[20]]], 1, 0, instruments).result).toBeCloseTo(1.05, 4);
  expect(resultShape("HYDROMETER", [readings, [[20]]], instruments)).toEqual({ rows: 3, columns: 1 });
  expect(looks).toBe(0);
  evaluate("HYDROMETER", [readings, [[20]]], instruments);
  expect(looks).toBeGreaterThan(0);
});
