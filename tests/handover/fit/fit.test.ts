import { describe, expect, test } from "vitest";
import { fittedPolynomial } from "../../../src/handover/fit/chebyshev-fit.js";
import {
  combined,
  conditionOn,
  constant,
  atLeast,
  gravityAsWritten,
  input,
  piecewiseLinear,
  summed,
  type CoefficientBlock,
  type Places,
} from "../../../src/handover/fit/expression.js";
import { chebyshevNodes } from "../../../src/handover/fit/interval.js";
import { polynomialFormula, scaleOf, polynomialValue } from "../../../src/handover/fit/polynomial.js";
import { fitOne, fitTwo } from "../../../src/handover/fit/smooth-fit.js";

/** Places where every block lies in the same cells. */
const places = (listsGoDown: boolean, met: CoefficientBlock[] = []): Places => ({
  listsGoDown,
  block: (block, upright) => {
    met.push(block);
    return upright ? "K!$B$2:$B$4" : "K!$B$2:$D$2";
  },
});

describe("a polynomial", () => {
  test("of the degree of what it is fitted to is that", () => {
    const nodes = chebyshevNodes({ min: 1, max: 5 }, 9);
    const samples = nodes.flatMap((x) => nodes.map((y) => ({ x: [x, y], y: 2 - x * y + 3 * x * x * y })));
    const extents = [
      { min: 1, max: 5 },
      { min: 1, max: 5 },
    ];
    const fit = fittedPolynomial(samples, extents, 3, 1e-10);
    for (const [x, y] of [
      [1, 1],
      [2.5, 4],
      [5, 1.25],
    ] as const)
      expect(polynomialValue(fit, [x, y])).toBeCloseTo(2 - x * y + 3 * x * x * y, 7);
  });

  test("is written as a sum of coefficients times powers, of a row, of a column, and within a sum over a list", () => {
    const scales = [{ factor: 0.011, offset: 0.1 }];
    const says = { title: "density", worst: 0 };
    const curve = polynomialFormula({ rows: [[2, 0, -1.5]], scales }, ["temperature"], says);
    expect(curve.write(["B2"], places(false))).toBe("SUMPRODUCT(K!$B$2:$D$2*(B2*0.011+0.1)^{0,1,2})");
    expect(curve.at([80])).toBeCloseTo(2 - 1.5 * 0.98 ** 2, 12);
    const met: CoefficientBlock[] = [];
    const sum = summed(input(1), curve);
    expect(sum.write(["B2:B9", "A2:A9"], places(true, met))).toBe(
      "SUMPRODUCT(A2:A9*K!$B$2:$D$2*(B2:B9*0.011+0.1)^{0,1,2})",
    );
    expect(sum.write(["B2:E2", "B1:E1"], places(false))).toBe(
      "SUMPRODUCT(B1:E1*K!$B$2:$B$4*(B2:E2*0.011+0.1)^{0;1;2})",
    );
    expect(met).toEqual([{ ...says, rows: [[2, 0, -1.5]], variables: ["(temperature*0.011+0.1)"] }]);
    const two = { rows: [[1, 2, 3], [4, 5, 6]], scales: [...scales, { factor: 3, offset: -2.5 }] }; // prettier-ignore
    expect(polynomialFormula(two, ["t", "x"], says).write(["B2", "(A2/2)"], places(false))).toBe(
      "SUMPRODUCT(K!$B$2:$D$2*(B2*0.011+0.1)^{0,1,2}*(A2/2*3-2.5)^{0;1})",
    );
  });

  test("of degree 1 has its coefficients in the formula", () => {
    const line = polynomialFormula({ rows: [[1, 2]], scales: [{ factor: 4, offset: 0.5 }] }, ["x"], {
      title: "",
      worst: 0,
    });
    expect(line.write(["(A1-B1)"], places(false))).toBe("((A1-B1)*8+2)");
    expect(line.at([0.25])).toBe(4);
  });

  test.each([
    [0.95, 1.2],
    [-10, 40],
    [0, 80],
    [1e6, 2e6],
    [1.0286, 1.0291],
  ])("has variables that never are 0 and stay of size 1, from %d to %d", (min, max) => {
    const { factor, offset } = scaleOf({ min, max });
    expect(min * factor + offset).toBeGreaterThan(0.0999);
    expect(max * factor + offset).toBeLessThan(1.15);
    expect(max * factor + offset).toBeGreaterThan(0.7);
  });
});

test("parentheses are left out where they change nothing, whatever the sheets are called", () => {
  const gravity = gravityAsWritten(input(0));
  expect(gravity.write(["B2"], places(false))).toBe("(B2/1000^(B2>9))");
  expect([1046, 1.046].map((each) => gravity.at([each]))).toEqual([1.046, 1.046]);
  const odd = "'a) (b-c'!B2";
  const bound = conditionOn(atLeast(input(0), constant(-1)), [gravity]);
  expect(bound.write([odd], places(false))).toBe(`${odd}/1000^(${odd}>9)>=(-1)`.replace("(-1)", "-1"));
  const both = combined(combined(input(0), "-", input(1)), "*", combined(input(0), "+", input(1)));
  expect(atLeast(both, both).write(["A1", "B1"], places(false))).toBe("(A1-B1)*(A1+B1)>=(A1-B1)*(A1+B1)");
});

test("straight lines go through their corners, and on one to one outside", () => {
  const lines = piecewiseLinear(input(0), [1, 3], [2, 7]);
  expect([0, 1, 2, 3, 5].map((x) => lines.at([x]))).toEqual([1, 2, 4.5, 7, 9]);
});

describe("a fit", () => {
  test("keeps within the tolerance, and to where the function answers", () => {
    const fit = fitOne(
      (places) => places.map(([x = NaN]) => (x >= 0.25 ? Math.exp(x) : undefined)),
      { min: -1, max: 2 },
      { tolerance: 1e-5, title: "y", names: ["x"] },
    );
    for (const x of [0.25, 0.7, 1.3, 2])
      expect(Math.abs((fit?.result.at([x]) ?? NaN) - Math.exp(x))).toBeLessThan(1e-5);
    const holds = (x: number) => fit?.conditions.every((condition) => condition.holds([x]));
    expect([0.2499, 0.2501, 2, 2.001].map(holds)).toEqual([false, true, true, false]);
  });

  test("follows an edge round its corner", () => {
    // y from −x² to the lesser of 1 and 0.3 + x
    const inside = (x: number, y: number): boolean => y >= -x * x && y <= Math.min(1, 0.3 + x);
    const fit = fitTwo(
      (places) => places.map(([x = NaN, y = NaN]) => (inside(x, y) ? x * y : undefined)),
      { min: 0, max: 2 },
      { min: -5, max: 5 },
      { tolerance: 1e-4, edge: 1e-3, title: "z", names: ["x", "y"] },
    );
    const holds = (x: number, y: number) => fit?.conditions.every((condition) => condition.holds([x, y]));
    for (const x of [0.05, 0.4, 0.69, 0.71, 1.2, 1.95]) {
      const [low, high] = [-x * x, Math.min(1, 0.3 + x)];
      expect([low - 2e-3, low + 2e-3, high - 2e-3, high + 2e-3].map((y) => holds(x, y))).toEqual([
        false,
        true,
        true,
        false,
      ]);
    }
  });

  test("is none where the tolerance cannot be reached", () => {
    const steps = (places: readonly (readonly number[])[]) => places.map(([x = NaN]) => Math.floor(x));
    expect(fitOne(steps, { min: 0, max: 9 }, { tolerance: 0.01, title: "y", names: ["x"] })).toBeUndefined();
  });
});
