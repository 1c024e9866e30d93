import { expect, test } from "vitest";
import { catalogue } from "../../src/functions/catalogue.js";
import { CellError, type RawCells } from "../../src/functions/contract/cell-value.js";
import { evaluate } from "../../src/functions/evaluate.js";
import { gravityUnchecked } from "../../src/core/liquid/gravity.js";
import type { Range } from "../../src/core/refusal.js";
import { covered, RESULT } from "../../src/help/ranges.js";
import { sampleInstruments } from "../../src/help/sample-book.js";
import { workedExample } from "../../src/help/worked-example.js";

/** Just beyond both ends of what is covered, as the function takes it: an extract as SG where the example has SG. */
function beyond(ranges: readonly Range[], given: unknown): number[] {
  const written = (unit: string, value: number): number =>
    unit === "°P" && !(Number(given) > 2) ? gravityUnchecked(value) : value;
  const ends = ranges.flatMap(({ min, max, unit }) => {
    const step = max > 1e6 ? 1e-6 * max : 1e-3 * (max - min);
    return [
      { outside: written(unit, min - step), end: min },
      { outside: written(unit, max + step), end: max },
    ];
  });
  const values = ends.map(({ outside }) => outside);
  return [Math.min(...values), Math.max(...values)];
}

test("what a page calls covered is where the function refuses to go on", () => {
  for (const spec of catalogue) {
    const { args } = workedExample(spec);
    for (const [parameter, ranges] of Object.entries(covered[spec.name] ?? {})) {
      if (parameter === RESULT) continue;
      const at = spec.parameters.findIndex(({ name }) => name === parameter);
      expect([spec.name, parameter, at >= 0]).toEqual([spec.name, parameter, true]);
      for (const value of beyond(
        ranges.slice(0, 1).concat(ranges.slice(1).filter(({ unit }) => unit === "°Bx")),
        args[at]?.[0]?.[0],
      )) {
        const changed = args.map((each, i): RawCells => {
          if (i === at) return each.map((row, r) => (r === 0 ? [value] : row));
          // A refractometer that needs the temperature.
          const isPrism =
            parameter === "temperature" && spec.parameters[i]?.instrumentKind === "refractometer";
          return isPrism ? [["Brass prism"]] : each;
        });
        const errors = evaluate(spec.name, changed, sampleInstruments)
          .flat()
          .filter((cell) => cell instanceof CellError);
        expect([spec.name, parameter, value, errors.length > 0]).toEqual([spec.name, parameter, value, true]);
      }
    }
  }
});

test("every function says what it covers", () => {
  expect(Object.keys(covered).sort()).toEqual(catalogue.map(({ name }) => name).sort());
});
