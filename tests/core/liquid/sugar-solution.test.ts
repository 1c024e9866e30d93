import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gravityOfExtract } from "../../../src/core/liquid/gravity.js";
import { Refusal } from "../../../src/core/refusal.js";
import { gravityPerGram, solutionStrength, sugarSolution } from "../../../src/core/liquid/sugar-solution.js";
import { near } from "../../support/near.js";
import { figure, reference, worst } from "../../support/reference.js";

test("12 °P is by definition 12 g in 100 g: 120 g of sugar with 880 g of water, made up to 1,000 g", () => {
  for (const size of [{ total: 1000 }, { water: 880 }]) {
    const { sugar, water, total } = sugarSolution(12, size);
    expect([sugar, water, total]).toEqual([120, 880, 1000].map((grams) => near(grams, 9)));
    expect(solutionStrength(120, size)).toBeCloseTo(12, 12);
  }
});

test("each row of NBS Table 114, weighed with 1,000 g of water, has the printed gravity within 1e-5", () => {
  const rows = reference("plato-sg-nbs114-apparent");
  expect(rows.length).toBe(41);
  const off = (row: (typeof rows)[number]): number => {
    const brix = figure(row, "brix");
    const sugar = (1000 * brix) / (100 - brix);
    return gravityOfExtract(solutionStrength(sugar, { water: 1000 })) - figure(row, "apparent_sg_20_20");
  };
  expect(worst(rows, off).by).toBeLessThanOrEqual(1e-5);
});

// NBS Circular C457, Table 2, weighed in air with brass: half its last digit is 0.23 g in a US gallon, and our density may
// be 0.03 kg/m³ from Plato's, which is 0.11 g.
test("a US gallon at 20 °C weighs what NBS C457 prints within 0.35 g, and holds that share of sugar", () => {
  const litres = 3.785412;
  const rows = reference("density-sucrose-nbs457-weights").filter((row) => figure(row, "t_C") === 20);
  expect(rows.length).toBe(7);
  const printed = (row: (typeof rows)[number]): number =>
    figure(row, "pounds_per_us_gallon_in_air") * 453.5924 * (1 - 0.0012 / 8.4) + 1.2 * litres;
  const total = (row: (typeof rows)[number]) => sugarSolution(figure(row, "brix"), { litres });
  expect(worst(rows, (row) => total(row).total - printed(row)).by).toBeLessThan(0.35);
  const share = (row: (typeof rows)[number]): number => (printed(row) * figure(row, "brix")) / 100;
  expect(worst(rows, (row) => total(row).sugar - share(row)).by).toBeLessThan(0.1);
});

// A state standard's table of extract in a litre, printed to 0.1 g; 0.15 g/L (see gravity.test.ts) is 6e-5 of gravity.
test("sugar made up to a litre has the gravity of a printed table within 6e-5", () => {
  const rows = reference("plato-sg-extract-gl-gost");
  const off = (row: (typeof rows)[number]): number =>
    gravityOfExtract(solutionStrength(figure(row, "extract_g_per_L"), { litres: 1 })) - figure(row, "d20_20");
  expect(rows.length).toBe(80);
  expect(worst(rows, off).by).toBeLessThan(6e-5);
});

const sizes = [
  fc.record({ water: fc.double({ min: 1, max: 1e5, noNaN: true }) }),
  fc.record({ total: fc.double({ min: 1, max: 1e5, noNaN: true }) }),
  fc.record({ litres: fc.double({ min: 0.001, max: 100, noNaN: true }) }),
];

test("what was weighed for a strength has that strength, and sugar and water make the whole", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 29.999, noNaN: true }), fc.oneof(...sizes), (extract, size) => {
      const { sugar, water, total } = sugarSolution(extract, size);
      expect(solutionStrength(sugar, size)).toBeCloseTo(extract, 8);
      expect(sugar + water).toBeCloseTo(total, 6);
    }),
  );
});

describe("a gram too much", () => {
  test("in 1,000 g is 0.4 points at 10 °P, by the printed rows beside it", () => {
    const table = new Map(
      reference("plato-sg-nbs114-apparent").map((row) => [
        figure(row, "brix"),
        figure(row, "apparent_sg_20_20"),
      ]),
    );
    const printed = ((table.get(11) ?? NaN) - (table.get(9) ?? NaN)) / 20; // 20 g in 1,000 g
    expect(gravityPerGram(10, { total: 1000 })).toBeCloseTo(printed, 6);
    expect(1000 * gravityPerGram(10, { total: 1000 })).toBeCloseTo(0.4, 1);
  });

  test("moves the gravity as weighing anew does", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 29, noNaN: true }), fc.oneof(...sizes), (extract, size) => {
        const { sugar, total } = sugarSolution(extract, size);
        const step = total * 1e-5;
        const [less, more] = [sugar - step, sugar + step].map((grams) =>
          gravityOfExtract(solutionStrength(grams, size)),
        );
        const perGram = ((more ?? NaN) - (less ?? NaN)) / (2 * step);
        expect(Math.abs(perGram / gravityPerGram(extract, size) - 1)).toBeLessThan(1e-4);
      }),
    );
  });
});

test("answers from 0 to 30 °P and refuses past both ends, and sizes that nobody weighs", () => {
  const size = { total: 500 };
  for (const extract of [0, 30])
    expect(solutionStrength(sugarSolution(extract, size).sugar, size)).toBeCloseTo(extract, 9);
  for (const extract of [-0.001, 30.001, NaN]) expect(() => sugarSolution(extract, size)).toThrow(Refusal);
  for (const sugar of [-1, 151, NaN]) expect(() => solutionStrength(sugar, size)).toThrow(Refusal);
  for (const bad of [{ total: 0 }, { water: -5 }, { litres: 0 }, { total: NaN }, { litres: Infinity }]) {
    expect(() => sugarSolution(10, bad)).toThrow(Refusal);
    expect(() => solutionStrength(10, bad)).toThrow(Refusal);
  }
  expect(() => solutionStrength(400, { litres: 1 })).toThrow(Refusal); // over 30 °P
});
