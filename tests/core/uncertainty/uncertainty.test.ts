import { describe, expect, test } from "vitest";
import { checkRange } from "../../../src/core/refusal.js";
import {
  budgetOf,
  exactly,
  normal,
  tellBudget,
  toNearest,
  rectangular,
  type Model,
} from "../../../src/core/uncertainty/uncertainty.js";
import { deviation, figure, mean, reference } from "../../support/reference.js";
import { reasonOf } from "../../support/refused.js";
import { told } from "../../support/told.js";

// JCGM 100:2008, H.2: voltage, current and phase angle of one circuit, measured five times together.
describe("GUM example H.2, resistance and reactance from correlated readings", () => {
  const rows = reference("jcgm100-h2");
  const readings = (column: string): number[] => rows.map((row) => figure(row, column));
  const [V, I, phi] = [readings("V"), readings("I_mA").map((mA) => mA / 1000), readings("phi")];
  const n = rows.length;
  const ofMean = (values: readonly number[]): number => deviation(values) / Math.sqrt(n);
  const correlation = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, value, i) => sum + (value - mean(a)) * ((b[i] ?? NaN) - mean(b)), 0) /
    ((n - 1) * deviation(a) * deviation(b));
  const of = {
    V: normal(mean(V), ofMean(V)),
    I: normal(mean(I), ofMean(I)),
    phi: normal(mean(phi), ofMean(phi)),
  };
  const correlations = [
    { between: ["V", "I"], is: correlation(V, I) },
    { between: ["V", "phi"], is: correlation(V, phi) },
    { between: ["I", "phi"], is: correlation(I, phi) },
  ] as const;
  type Values = Readonly<Record<keyof typeof of, number>>;

  test("has the printed means, uncertainties and correlations", () => {
    expect([of.V.value, of.I.value * 1000, of.phi.value]).toEqual([
      expect.closeTo(4.999, 4),
      expect.closeTo(19.661, 4),
      expect.closeTo(1.04446, 5),
    ]);
    expect([of.V.standardUncertainty, of.I.standardUncertainty * 1000, of.phi.standardUncertainty]).toEqual([
      expect.closeTo(0.0032, 4),
      expect.closeTo(0.0095, 4),
      expect.closeTo(0.00075, 5),
    ]);
    expect(correlations.map(({ is }) => Number(is.toFixed(2)))).toEqual([-0.36, 0.86, -0.65]);
  });

  // The guide prints 0.295 for X where the unrounded readings give 0.2956, so the last digit is held to one and not to half.
  // Its second approach, the scatter of what each of the five sets gives, must come to the same.
  for (const [name, result, value, u] of [
    ["R", ({ V, I, phi }: Values) => (V / I) * Math.cos(phi), 127.732, 0.071],
    ["X", ({ V, I, phi }: Values) => (V / I) * Math.sin(phi), 219.847, 0.295],
    ["Z", ({ V, I }: Values) => V / I, 254.26, 0.236],
  ] as const)
    test(`${name} is ${value} Ω with a standard uncertainty of ${u} Ω, as printed`, () => {
      const budget = budgetOf({ of, result }, correlations);
      expect(budget.value).toBeCloseTo(value, 3);
      expect(Math.abs(budget.standardUncertainty - u)).toBeLessThan(0.001);
      const fives = V.map((_, i) => result({ V: V[i] ?? NaN, I: I[i] ?? NaN, phi: phi[i] ?? NaN }));
      expect(budget.standardUncertainty).toBeCloseTo(ofMean(fives), 3);
      expect(budget.expandedUncertainty).toBe(2 * budget.standardUncertainty);
      expect(budget.components.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
      expect(Math.abs(budgetOf({ of, result }).standardUncertainty - u)).toBeGreaterThan(0.02); // they are correlated indeed
    });
});

test("independent quantities add up as squares, and each says what it does (GUM 5.1.2)", () => {
  const of = { a: normal(10, 3), b: normal(2, 2), c: exactly(7) };
  const budget = budgetOf({ of, result: ({ a, b, c }) => a - 2 * b + c });
  expect(budget).toEqual({
    value: 13,
    standardUncertainty: 5,
    expandedUncertainty: 10,
    components: [
      { name: "a", standardUncertainty: 3, share: expect.closeTo(9 / 25, 12) as number },
      { name: "b", standardUncertainty: 4, share: expect.closeTo(16 / 25, 12) as number },
    ],
  });
});

test("fully correlated errors cancel in a difference and add in a sum (GUM 5.2.2, note 1)", () => {
  const of = { a: normal(5, 0.1), b: normal(4, 0.1) };
  const together = [{ between: ["a", "b"], is: 1 }] as const;
  expect(budgetOf({ of, result: ({ a, b }) => a - b }, together).standardUncertainty).toBeCloseTo(0, 9);
  expect(budgetOf({ of, result: ({ a, b }) => a + b }, together).standardUncertainty).toBeCloseTo(0.2, 12);
});

// GUM 4.3.7 and F.2.2.1.
test("a half-width a is a/√3, a division δ is 0.29 δ", () => {
  expect(rectangular(0, 0.3).standardUncertainty).toBeCloseTo(0.3 / Math.sqrt(3), 12);
  expect(toNearest(0, 1).standardUncertainty).toBeCloseTo(0.29, 2);
});

describe("at an end of what is covered", () => {
  const covered = { of: "x", min: 0, max: 10, unit: "" };
  const result = ({ x }: { x: number }): number => {
    checkRange(covered, x);
    return 3 * x;
  };

  test("the derivative is taken from the side that is", () => {
    for (const x of [0, 5, 10])
      expect(budgetOf({ of: { x: normal(x, 0.1) }, result }).standardUncertainty).toBeCloseTo(0.3, 12);
  });

  test("a value outside is refused, and one known so badly that both sides are", () => {
    expect(reasonOf(() => budgetOf({ of: { x: normal(11, 0.1) }, result })).kind).toBe("out-of-range");
    expect(reasonOf(() => budgetOf({ of: { x: normal(5, 50) }, result })).kind).toBe("out-of-range");
  });
});

test("a fault of the calculation itself is not taken for an end of what is covered", () => {
  const faulty = ({ x }: { x: number }): number => {
    if (x > 5) throw new TypeError("a fault");
    return x;
  };
  expect(() => budgetOf({ of: { x: normal(5, 1) }, result: faulty })).toThrow(TypeError);
});

test("what is exactly known is exact", () => {
  expect(budgetOf({ of: { a: exactly(3) }, result: ({ a }) => a * a })).toEqual({
    value: 9,
    standardUncertainty: 0,
    expandedUncertainty: 0,
    components: [],
  });
});

test("at an end of what is covered, the change towards the other side is what counts", () => {
  const from0: Model<"x"> = {
    of: { x: normal(0, 0.1) },
    result: ({ x }) => {
      checkRange({ of: "x", min: 0, max: 1, unit: "" }, x);
      return 5 + 3 * x;
    },
  };
  expect(budgetOf(from0).standardUncertainty).toBeCloseTo(0.3, 12);
});

test("what does nothing to the result has no share in its uncertainty", () => {
  const { standardUncertainty: standard, components } = budgetOf({
    of: { x: normal(1, 0.1) },
    result: () => 7,
  });
  expect([standard, components]).toEqual([0, [{ name: "x", standardUncertainty: 0, share: 0 }]]);
});

test("a budget is told: each component, all together, and with the coverage factor 2", () => {
  const budget = budgetOf<"a" | "b">({
    of: { a: normal(1, 3), b: normal(1, 4) },
    result: ({ a, b }) => a + b,
  });
  const { steps } = told((to) => tellBudget(budget, "g", to));
  expect(steps.map(({ value, unit }) => [Math.round(value * 1e9) / 1e9, unit])).toEqual([
    [3, "g"],
    [4, "g"],
    [5, "g"],
    [10, "g"],
  ]);
  expect(tellBudget(budget, "g", undefined)).toBeCloseTo(10, 12);
});
